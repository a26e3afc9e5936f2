package org.splicebook.graph;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.store.RecordText;
import org.splicebook.wiring.Derivation;

/** Houses to ask about, and a store that holds them. */
final class QuestionHouses {
    private QuestionHouses() {}

    /** {@return a small house with one of each thing that people look for} */
    static House planted() {
        try (InputStream in = QuestionHouses.class.getResourceAsStream("planted.yaml")) {
            String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            return HouseFiles.parse("planted.yaml", text).get();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return a store in that folder} */
    static Neo4jHouseStore store(Path folder, List<Path> queries) {
        return Stores.embedded(folder, new Remembered(), Clock.systemUTC(), Derivation::derive, queries);
    }

    /** Keeps records in memory: these tests only ask the graph. */
    private static final class Remembered implements RecordText {
        private final Map<String, House> houses = new ConcurrentHashMap<>();

        @Override
        public String write(House house) {
            String text = house.id() + " " + house.hashCode();
            houses.put(text, house);
            return text;
        }

        @Override
        public String writeProperty(Property property) {
            return PropertyFiles.write(property);
        }

        @Override
        public Property readProperty(String text) {
            return PropertyFiles.parse("test", text).get().property();
        }

        @Override
        public House read(String text) {
            return houses.get(text);
        }

        @Override
        public String write(Draft draft) {
            throw new UnsupportedOperationException("no drafts here");
        }

        @Override
        public Draft readDraft(String text) {
            throw new UnsupportedOperationException("no drafts here");
        }
    }
}
