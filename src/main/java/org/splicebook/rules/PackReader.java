package org.splicebook.rules;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.housefile.Node;
import org.splicebook.housefile.PlacedYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;

/** Reads a whole pack: title, editions, and what it says of each rule. */
final class PackReader {
    static final List<String> SEVERITIES = List.of("danger", "fault", "advice");
    private static final List<String> KEYS = List.of("title", "editions", "countries", "rules");
    private static final List<String> RULE_KEYS =
            List.of("title", "severity", "hazard", "from", "since", "article", "mark", "cure", "licensed", "values");

    private final List<Problem> problems = new ArrayList<>();

    private PackReader() {}

    /** {@return the pack of a text, or all that is wrong with it} */
    static Result<PackSource> parse(String name, String text) {
        Result<Node> node = PlacedYaml.parse(name, text);
        if (!node.isOk()) {
            return new Result.Failed<>(node.problems());
        }
        PackReader r = new PackReader();
        PackSource pack = r.pack(node.get());
        return r.problems.isEmpty() ? Result.ok(pack) : new Result.Failed<>(r.problems);
    }

    private PackSource pack(Node node) {
        PackFields f = PackFields.of(node, KEYS, problems);
        f.need("title", "Say what people call the pack.");
        List<Integer> editions = new ArrayList<>();
        Node years = f.node("editions");
        if (years != null) {
            f.words(years).forEach(s -> {
                Integer y = f.year(s.text(), s.at());
                if (y != null) {
                    editions.add(y);
                }
            });
        }
        Map<String, PackSource.RuleSource> rules = new LinkedHashMap<>();
        for (Node.Entry e : f.map("rules")) {
            isRule(f, e);
            rules.put(e.key().text(), rule(e.value()));
        }
        Node countries = f.node("countries");
        return new PackSource(f.text("title"), editions, countries == null ? List.of() : texts(f, countries), rules);
    }

    /** Tells where a key is no rule, and which was perhaps meant. */
    static boolean isRule(PackFields f, Node.Entry e) {
        boolean known = Rules.ids().contains(e.key().text());
        if (!known) {
            f.wrong(
                    ProblemKind.DANGLING_NAME,
                    e.key().at(),
                    "There is no rule " + e.key().said() + ".",
                    Nearest.cure(e.key().text(), Rules.ids()));
        }
        return known;
    }

    private PackSource.RuleSource rule(Node node) {
        PackFields f = PackFields.of(node, RULE_KEYS, problems);
        f.need("title", "Say the rule in a few words.");
        f.need("severity", "One of these: " + String.join(", ", SEVERITIES) + ".");
        f.need("cure", "Say what would put it right.");
        Map<String, PackSource.ByEdition> values = new LinkedHashMap<>();
        f.map("values").forEach(v -> values.put(v.key().text(), byEdition(f, v.value())));
        PackSource.ByEdition mark = byEdition(f, f.node("mark"));
        mark.said().values().stream()
                .flatMap(List::stream)
                .filter(m -> !Mark.ALL.contains(m))
                .forEach(m ->
                        f.wrong(ProblemKind.BAD_VALUE, f.at("mark"), "There is no mark \"" + m + "\".", "V, M or U."));
        Integer from = f.year("from");
        return new PackSource.RuleSource(
                f.text("title"),
                severity(f.word("severity", SEVERITIES, "advice")),
                f.yesNo("hazard"),
                from == null ? 0 : from,
                f.year("since"),
                byEdition(f, f.node("article")),
                mark,
                f.text("cure"),
                f.yesNo("licensed"),
                values);
    }

    static Severity severity(String word) {
        return Severity.valueOf(word.toUpperCase(Locale.ROOT));
    }

    private static PackSource.ByEdition byEdition(PackFields f, @Nullable Node n) {
        if (n == null) {
            return PackSource.ByEdition.NOTHING;
        }
        TreeMap<Integer, List<String>> said = new TreeMap<>();
        if (n instanceof Node.Entries map) {
            for (Node.Entry e : map.entries()) {
                Integer y = f.year(e.key().text(), e.key().at());
                said.put(y == null ? 0 : y, texts(f, e.value()));
            }
        } else {
            said.put(0, texts(f, n));
        }
        return new PackSource.ByEdition(said);
    }

    private static List<String> texts(PackFields f, Node n) {
        return f.words(n).stream().map(Node.Scalar::text).toList();
    }
}
