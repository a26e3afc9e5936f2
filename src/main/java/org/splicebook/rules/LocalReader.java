package org.splicebook.rules;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Nearest;
import org.splicebook.housefile.Kinds;
import org.splicebook.housefile.Node;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.PlaceKind;

/** Reads a local pack. Words that no rule would ever meet are told: a place that does not exist asks for nothing, silently. */
final class LocalReader {
    private static final List<String> KEYS = List.of("title", "over", "rules");
    private static final List<String> RULE_KEYS =
            List.of("off", "on", "severity", "article", "cure", "values", "reason");
    private static final List<String> EDIT_KEYS = List.of("with", "without");
    /** Values whose words are kinds of places. */
    private static final Set<String> PLACES = Set.of("places", "unfinished", "ask", "judged-by-place");

    private final List<Problem> problems = new ArrayList<>();

    private LocalReader() {}

    static Result<LocalPack> read(Result<Node> node) {
        if (!node.isOk()) {
            return new Result.Failed<>(node.problems());
        }
        LocalReader r = new LocalReader();
        LocalPack local = r.pack(node.get());
        return r.problems.isEmpty() ? Result.ok(local) : new Result.Failed<>(r.problems);
    }

    private LocalPack pack(Node node) {
        PackFields f = PackFields.of(node, KEYS, problems);
        f.need("title", "Say whose rules these are, for example: title: The town of Alder, 2024.");
        String over = f.text("over");
        if (f.has("over")) {
            Result<Pack> base = Packs.find(over);
            base.problems().forEach(p -> f.wrong(ProblemKind.DANGLING_NAME, f.at("over"), p.message(), p.cure()));
        }
        List<LocalPack.Change> changes = new ArrayList<>();
        List<Node.Entry> rules = f.map("rules");
        if (rules.isEmpty() && !f.has("rules")) {
            f.wrong(ProblemKind.MISSING, f.at(), "It changes no rule.", "Name rules under the key rules.");
        }
        for (Node.Entry e : rules) {
            boolean known = PackReader.isRule(f, e);
            LocalPack.Change c = change(e, known);
            if (c != null) {
                changes.add(c);
            }
        }
        return new LocalPack(f.text("title"), over.isEmpty() ? null : over, changes);
    }

    private LocalPack.@Nullable Change change(Node.Entry e, boolean known) {
        String id = e.key().text();
        PackFields f = PackFields.of(e.value(), RULE_KEYS, problems);
        f.need("reason", "Say why, for example: reason: amendment of 2024, section 12.");
        boolean off = f.yesNo("off");
        boolean on = f.yesNo("on");
        boolean alters =
                List.of("severity", "article", "cure", "values").stream().anyMatch(f::has);
        if (off && (on || alters)) {
            f.wrong(
                    ProblemKind.CONFLICT,
                    f.atKey("off"),
                    "It is switched off and altered as well.",
                    "Keep off: yes, or what is altered.");
        } else if (!off && !on && !alters) {
            f.wrong(
                    ProblemKind.MISSING,
                    e.key().at(),
                    "Nothing is changed of " + id + ".",
                    "Say off: yes, or one of severity, article, cure, values.");
        }
        if (!known) {
            return null;
        }
        String severity = f.word("severity", PackReader.SEVERITIES, "");
        return new LocalPack.Change(
                id,
                off ? LocalPack.Act.OFF : on ? LocalPack.Act.ON : LocalPack.Act.ALTER,
                severity.isEmpty() ? null : PackReader.severity(severity),
                f.has("article") ? f.text("article") : null,
                f.has("cure") ? f.text("cure") : null,
                edits(id, f),
                f.text("reason"),
                e.key().at());
    }

    private Map<String, LocalPack.Edit> edits(String rule, PackFields f) {
        Map<String, LocalPack.Edit> all = new LinkedHashMap<>();
        Map<String, Set<String>> before = Packs.values(rule);
        for (Node.Entry v : f.map("values")) {
            String name = v.key().text();
            if (!before.containsKey(name)) {
                f.wrong(
                        ProblemKind.UNKNOWN_KEY,
                        v.key().at(),
                        "The rule " + rule + " goes by no value " + v.key().said() + ".",
                        before.isEmpty() ? "It goes by none." : Nearest.cure(name, before.keySet()));
                continue;
            }
            Set<String> old = before.get(name);
            if (v.value() instanceof Node.Entries) {
                PackFields edit = PackFields.of(v.value(), EDIT_KEYS, problems);
                all.put(
                        name,
                        new LocalPack.Edit(
                                null,
                                words(edit, edit.node("with"), rule, name, old),
                                words(edit, edit.node("without"), rule, name, old)));
            } else {
                all.put(name, new LocalPack.Edit(words(f, v.value(), rule, name, old), List.of(), List.of()));
            }
        }
        return all;
    }

    private List<String> words(PackFields f, @Nullable Node n, String rule, String name, Set<String> old) {
        List<String> all = new ArrayList<>();
        if (n == null) {
            return all;
        }
        List<Node.Scalar> words = f.words(n);
        Set<String> known = vocabulary(name, old);
        boolean number = !old.isEmpty() && old.stream().allMatch(LocalReader::isNumber);
        for (Node.Scalar s : words) {
            if (number && !isNumber(s.text())) {
                f.wrong(
                        ProblemKind.BAD_VALUE,
                        s.at(),
                        s.said() + " is not a number.",
                        name + " is a number, such as " + old.iterator().next() + ".");
            } else if (!known.isEmpty() && !known.contains(s.text())) {
                f.wrong(
                        ProblemKind.BAD_VALUE,
                        s.at(),
                        s.said() + " does not fit " + name + " of " + rule + ".",
                        Nearest.cure(s.text(), known));
            }
            all.add(s.text());
        }
        boolean one = number && old.size() == 1;
        if (one && n instanceof Node.Items && all.size() != 1) {
            f.wrong(ProblemKind.BAD_VALUE, n.at(), all.size() + " values stand here.", name + " is one number.");
        }
        return all;
    }

    private static boolean isNumber(String s) {
        return s.matches("[0-9]{1,6}(\\.[0-9]{1,6})?");
    }

    /** The words that may stand in a value; nothing where any may. */
    private static Set<String> vocabulary(String name, Set<String> old) {
        Set<String> all = new TreeSet<>();
        if (PLACES.contains(name)) {
            Arrays.stream(PlaceKind.values()).map(PlaceKind::word).forEach(all::add);
        } else if (name.equals("kinds")) {
            all.addAll(Kinds.standard().keySet());
        } else if (Set.of("yes", "no").containsAll(old) && !old.isEmpty()) {
            all.addAll(List.of("yes", "no"));
        }
        return all;
    }
}
