package org.splicebook.cli;

import static java.util.Map.entry;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.splicebook.answer.Question;

/** What the sample house is asked when questions are measured: things that have much hanging on them. */
final class BenchQuestions {
    /** The question that does nothing: its round trip is what every other pays at least. */
    static final String EMPTY = "bench-empty";

    /** The file of {@link #EMPTY}. */
    static final String EMPTY_FILE = """
            // Does the store answer?
            // columns: one
            // kind: listing
            // across-houses
            RETURN 1 AS one
            """;

    private static final Map<String, Map<String, String>> PARAMETERS = Map.ofEntries(
            entry("always-hot", Map.of("box", "dining-door")),
            entry("before-closing", Map.of("box", "stair-head")),
            entry("box-breakers", Map.of("box", "stair-head")),
            entry("fill", Map.of("box", "stair-head")),
            entry("half-finished", Map.of("box", "stair-head")),
            entry("evidence", Map.of("at", "bath-1.top")),
            entry("diagnose", Map.of("symptoms", "dead: bath-1.top")),
            entry("feeds-units", Map.of("thing", "main.5")),
            entry(
                    "sag-order",
                    Map.of(
                            "sags",
                            "living-1.top 10 A: living-1.top 2.3/1.1, living-2.top 1.2/0.6; living-2.top 10 A: living-1.top 1.2/0.6, living-2.top 1.2/0.6")),
            entry("houses-with-crossing", Map.of("kind", "borrowed")),
            entry("houses-with-finding", Map.of("rule", "borrowed-neutral")),
            entry("neutral-crossings", Map.of("kind", "any")),
            entry("protected-by", Map.of("point", "bath-1.top")),
            entry("relies-on-device", Map.of("device", "shop-gf")),
            entry("reset", Map.of("point", "bath-1.top")),
            entry("still-live", Map.of("breaker", "main.20", "box", "stair-head")),
            entry("shut-off", Map.of("box", "stair-head")),
            entry("shares-breaker", Map.of("point", "bath-1.top")),
            entry("shares-neutral", Map.of("breaker", "main.9")),
            entry("unprotected", Map.of("function", "ground-fault")),
            entry("way-back", Map.of("point", "bath-1.top")),
            entry("what-goes-off", Map.of("thing", "shop-gf")),
            entry("wire-use", Map.of("wire", "C10g.white")));

    /** What made-up apartments are asked about: what each of them has. */
    private static final Map<String, String> APARTMENT = Map.ofEntries(
            entry("box", "counter-1"),
            entry("at", "r1.top"),
            entry("symptoms", "dead: r1.top"),
            entry("thing", "main.1"),
            entry("point", "r1.top"),
            entry("device", "counter-gf"),
            entry("breaker", "main.1"),
            entry("function", "ground-fault"),
            entry("kind", "any"),
            entry("wire", "C1.white"));

    private BenchQuestions() {}

    /** {@return what to ask of a made-up apartment; empty where that needs something else} */
    static Optional<Map<String, String>> ofApartment(Question question) {
        Map<String, String> known = new TreeMap<>();
        for (Question.Parameter p : question.parameters()) {
            String value = APARTMENT.get(p.name());
            if (p.otherwise().isEmpty()) {
                if (value == null) {
                    return Optional.empty();
                }
                known.put(p.name(), value);
            }
        }
        return Optional.of(known);
    }

    /** {@return what to ask it with; empty where it needs something that is not known for it} */
    static Optional<Map<String, String>> parameters(Question question) {
        Map<String, String> known = PARAMETERS.getOrDefault(question.id(), Map.of());
        boolean isEnough =
                question.parameters().stream().allMatch(p -> !p.otherwise().isEmpty() || known.containsKey(p.name()));
        return isEnough ? Optional.of(known) : Optional.empty();
    }
}
