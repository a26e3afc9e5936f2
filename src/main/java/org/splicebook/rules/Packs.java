package org.splicebook.rules;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;

/** The packs that the program brings along. */
public final class Packs {
    /** The edition that a house is judged by where its record names none. */
    public static final int USUAL_EDITION = 2023;

    private static final Map<?, ?> US = (Map<?, ?>) PlainYaml.strings(resource("us.yaml"));
    private static final Map<?, ?> PHYSICS = (Map<?, ?>) PlainYaml.strings(resource("physics.yaml"));
    private static final String PHYSICS_ID = "physics";

    private Packs() {}

    /** {@return a number that differs when what the packs say does} */
    static int digest() {
        return US.toString().hashCode() * 31 + PHYSICS.toString().hashCode();
    }

    /** {@return the editions of the US code that there are packs for} */
    public static List<Integer> editions() {
        return ((List<?>) Objects.requireNonNull(US.get("editions")))
                .stream().map(e -> Integer.valueOf(String.valueOf(e))).toList();
    }

    /** {@return the pack that a house's record asks for: its edition, else the usual one} */
    public static Pack of(House house) {
        int edition = USUAL_EDITION;
        if (house.code() != null && house.code().edition().matches("[0-9]{4}")) {
            int said = Integer.parseInt(house.code().edition());
            edition = editions().contains(said) ? said : USUAL_EDITION;
        }
        return us(edition);
    }

    /** {@return the pack of that word: an edition's year, or {@code physics}} */
    public static Result<Pack> find(String word) {
        if (word.equals(PHYSICS_ID)) {
            return Result.ok(physics());
        }
        return editions().stream()
                .filter(e -> word.equals(String.valueOf(e)))
                .findFirst()
                .map(e -> Result.ok(us(e)))
                .orElseGet(() -> Result.failed(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field("edition"),
                        "There is no pack \"" + word + "\".",
                        "There are " + editions() + " and " + PHYSICS_ID + ".")));
    }

    /** {@return the rules of an edition of the US code} */
    public static Pack us(int edition) {
        Map<String, RuleText> rules = new LinkedHashMap<>();
        rules(US).forEach((id, text) -> {
            Object from = text.get("from");
            if (from == null || Integer.parseInt(String.valueOf(from)) <= edition) {
                rules.put(String.valueOf(id), text(String.valueOf(id), text, edition));
            }
        });
        return new Pack("us-" + edition, US.get("title") + ", " + edition, edition, rules);
    }

    /** {@return the hazards that need no code} */
    public static Pack physics() {
        Map<String, RuleText> rules = new LinkedHashMap<>();
        us(Integer.parseInt(String.valueOf(PHYSICS.get("edition")))).rules().forEach((id, t) -> {
            if (t.hazard()) {
                rules.put(
                        id,
                        new RuleText(
                                id, t.title(), t.severity(), true, null, "", "", t.cure(), t.licensed(), t.values()));
            }
        });
        return new Pack(PHYSICS_ID, String.valueOf(PHYSICS.get("title")), null, rules);
    }

    private static Map<String, Map<?, ?>> rules(Map<?, ?> pack) {
        Map<String, Map<?, ?>> rules = new LinkedHashMap<>();
        ((Map<?, ?>) Objects.requireNonNull(pack.get("rules")))
                .forEach((id, text) -> rules.put(String.valueOf(id), (Map<?, ?>) text));
        return rules;
    }

    private static RuleText text(String id, Map<?, ?> said, int edition) {
        Map<String, List<String>> values = new LinkedHashMap<>();
        if (said.get("values") instanceof Map<?, ?> map) {
            map.forEach((name, value) -> values.put(String.valueOf(name), words(ofEdition(value, edition))));
        }
        String since = word(said.get("since"));
        return new RuleText(
                id,
                word(said.get("title")),
                Severity.valueOf(word(said.get("severity")).toUpperCase(Locale.ROOT)),
                word(said.get("hazard")).equals("yes"),
                since.isEmpty() ? null : Integer.valueOf(since),
                word(ofEdition(said.get("article"), edition)),
                mark(word(ofEdition(said.get("mark"), edition))),
                word(said.get("cure")),
                word(said.get("licensed")).equals("yes"),
                values);
    }

    /** How sure a fact is, as it is told. */
    private static String mark(String mark) {
        return switch (mark) {
            case "U" -> "unsure: read the printed code before it decides anything";
            case "M" -> "from memory: look the article up";
            default -> "";
        };
    }

    private static String word(@Nullable Object o) {
        return o == null ? "" : String.valueOf(o);
    }

    private static List<String> words(@Nullable Object o) {
        return o instanceof List<?> list
                ? list.stream().map(String::valueOf).toList()
                : o == null ? List.of() : List.of(String.valueOf(o));
    }

    /** What is said for the newest edition that is not newer; what is not said by edition holds for all. */
    private static @Nullable Object ofEdition(@Nullable Object value, int edition) {
        if (!(value instanceof Map<?, ?> map)) {
            return value;
        }
        Object best = null;
        int newest = 0;
        for (Map.Entry<?, ?> e : map.entrySet()) {
            int year = Integer.parseInt(String.valueOf(e.getKey()));
            if (year <= edition && year > newest) {
                newest = year;
                best = e.getValue();
            }
        }
        return best;
    }

    private static String resource(String name) {
        try (InputStream in = Packs.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
