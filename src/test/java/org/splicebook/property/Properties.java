package org.splicebook.property;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.House;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.wiring.Derivation;

/** A row of two flats with a cellar, for tests; texts may be changed before they are read. */
public final class Properties {
    private final Map<String, House> houses = new HashMap<>();
    private String property = text("alder-row.yaml");

    Properties() {
        for (String file : new String[] {"common.yaml", "unit-14a.yaml", "unit-14b.yaml"}) {
            with(text(file));
        }
    }

    /** {@return the text of a file of the row} */
    public static String text(String file) {
        try (InputStream in = Properties.class.getResourceAsStream(file)) {
            return new String(Objects.requireNonNull(in, file).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Properties with(String house) {
        House h = HouseFiles.parse("house", house).get();
        houses.put(h.id(), h);
        return this;
    }

    Properties without(String house) {
        houses.remove(house);
        return this;
    }

    Properties changed(String was, String is) {
        if (!property.contains(was)) {
            throw new IllegalArgumentException(was);
        }
        property = property.replace(was, is);
        return this;
    }

    Joined joined() {
        StoredProperty stored = new StoredProperty(
                PropertyFiles.parse("property", property).get().property(), revision("alder-row"));
        return new Joined(
                stored,
                id -> Optional.ofNullable(houses.get(id)).map(h -> new StoredHouse(h, revision(id))),
                s -> Derivation.derive(s.house()));
    }

    Answer ask(String question, String... parameters) {
        Map<String, String> given = new HashMap<>();
        for (int i = 0; i < parameters.length; i += 2) {
            given.put(parameters[i], parameters[i + 1]);
        }
        return (Answer) PropertyQuestions.ask(joined(), question, given).get();
    }

    private static Revision revision(String id) {
        return new Revision(id, id, 1, Instant.EPOCH, "Rowan", "", false, "0");
    }
}
