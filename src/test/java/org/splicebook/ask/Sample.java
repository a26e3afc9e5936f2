package org.splicebook.ask;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.store.MemoryStore;
import org.splicebook.wiring.Derivation;

/** Houses to ask computed questions of. */
final class Sample {
    private static final House PEAR_TREE =
            HouseFiles.read(Path.of("sample-house")).get();

    private Sample() {}

    /** {@return the sample house} */
    static House pearTree() {
        return PEAR_TREE;
    }

    /** {@return the house in that file of this package's resources} */
    static House file(String name) {
        try {
            Path path = Path.of("src/test/resources/org/splicebook/ask", name);
            return HouseFiles.parse(name, Files.readString(path)).get();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return a golden house of the derivation} */
    static House golden(String name) {
        return HouseFiles.read(Path.of("src/test/resources/org/splicebook/golden", name + ".house.yaml"))
                .get();
    }

    /** {@return a store that holds those houses and answers computed questions} */
    static AnsweringStore store(House... houses) {
        MemoryStore memory = new MemoryStore();
        memory.putAll(List.of(houses), "Rowan", "to ask about").get();
        return new AnsweringStore(memory, Derivation::derive);
    }

    /** {@return the answer; parameters as name, value, name, value} */
    static Answer ask(House house, String question, String... parameters) {
        try (AnsweringStore store = store(house)) {
            return (Answer) store.ask(question, house.id(), map(parameters)).get();
        }
    }

    static List<Problem> problems(House house, String question, String... parameters) {
        try (AnsweringStore store = store(house)) {
            Result<?> result = store.ask(question, house.id(), map(parameters));
            return result.isOk() ? List.of() : result.problems();
        }
    }

    private static Map<String, String> map(String... pairs) {
        Map<String, String> map = new TreeMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            map.put(pairs[i], pairs[i + 1]);
        }
        return map;
    }

    /** {@return a cell of each row of a subject} */
    static List<Object> cells(Answer answer, String subject, String column) {
        return answer.rows().stream()
                .filter(r -> r.subject().equals(subject))
                .map((Row r) -> r.columns().get(column))
                .toList();
    }
}
