package org.splicebook.rules;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlacedYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * What a state, a town or an inspector does otherwise than the code: changes to a pack, each with its reason.
 *
 * @param title what people call it
 * @param over the pack that it is meant for, as {@link Packs#find} knows it; null where it does not say
 * @param changes the changes, one for each rule
 */
public record LocalPack(String title, @Nullable String over, List<Change> changes) {
    public LocalPack {
        changes = List.copyOf(changes);
    }

    /** What a change does to a rule. */
    public enum Act {
        /** Nothing is checked by it. */
        OFF,
        /** It is checked by, though the edition does not have it yet. */
        ON,
        /** Some of what it says is another here. */
        ALTER
    }

    /**
     * A change to one rule.
     *
     * @param rule the rule's id
     * @param act what is done
     * @param severity how bad a breach is here; null as before
     * @param article the local article; null as before
     * @param cure what puts it right here; null as before
     * @param values what is done to the values that the rule goes by
     * @param reason why
     * @param where where it stands
     */
    public record Change(
            String rule,
            Act act,
            @Nullable Severity severity,
            @Nullable String article,
            @Nullable String cure,
            Map<String, Edit> values,
            String reason,
            Where where) {
        public Change {
            values = Map.copyOf(values);
        }
    }

    /**
     * What is done to a value.
     *
     * @param set what it is here; null where words are only put in and taken out
     * @param with words put in
     * @param without words taken out
     */
    public record Edit(@Nullable List<String> set, List<String> with, List<String> without) {
        List<String> on(List<String> before) {
            List<String> after = new ArrayList<>(set == null ? before : set);
            after.removeAll(without);
            with.stream().filter(w -> !after.contains(w)).forEach(after::add);
            return after;
        }
    }

    /** {@return the local pack of a file, or all that is wrong with it, each with line and column} */
    public static Result<LocalPack> read(Path file) {
        return LocalReader.read(PlacedYaml.read(file));
    }

    /** {@return the local pack of a text, or all that is wrong with it} */
    public static Result<LocalPack> parse(String name, String text) {
        return LocalReader.read(PlacedYaml.parse(name, text));
    }

    /** {@return a pack with these changes, or those that do not fit it} */
    public Result<Pack> on(Pack base) {
        Map<String, RuleText> rules = new LinkedHashMap<>(base.rules());
        List<Pack.Changed> told = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (Change c : changes) {
            RuleText before = rules.get(c.rule());
            if (c.act() == Act.ON && before == null) {
                before = Packs.whatever(base, c.rule());
            }
            if (c.act() == Act.OFF) {
                rules.remove(c.rule());
            } else if (before == null) {
                problems.add(Problem.error(
                        ProblemKind.CONFLICT,
                        c.where(),
                        "The pack " + base.title() + " has no rule " + c.rule() + ".",
                        "Say on: yes to bring it in, or leave it out."));
                continue;
            } else {
                rules.put(c.rule(), altered(before, c));
            }
            told.add(new Pack.Changed(c.rule(), said(c, before), c.reason()));
        }
        return problems.isEmpty()
                ? Result.ok(new Pack(base.id(), base.title() + ", with " + title, base.edition(), rules, told))
                : new Result.Failed<>(problems);
    }

    private RuleText altered(RuleText t, Change c) {
        Map<String, List<String>> values = new LinkedHashMap<>(t.values());
        c.values().forEach((name, edit) -> values.put(name, edit.on(t.list(name))));
        return new RuleText(
                t.id(),
                t.title(),
                c.severity() == null ? t.severity() : c.severity(),
                t.hazard(),
                t.since(),
                c.article() == null ? t.article() : c.article(),
                c.article() == null ? t.mark() : "",
                c.cure() == null ? t.cure() : c.cure(),
                t.licensed(),
                values,
                title + ": " + c.reason());
    }

    private static String said(Change c, @Nullable RuleText before) {
        if (c.act() == Act.OFF) {
            return "switched off";
        }
        List<String> parts = new ArrayList<>();
        if (c.act() == Act.ON) {
            parts.add("switched on");
        }
        if (c.severity() != null) {
            parts.add("now " + c.severity().word());
        }
        if (c.article() != null) {
            parts.add("by " + c.article());
        }
        if (c.cure() != null) {
            parts.add("another cure");
        }
        new TreeMap<>(c.values()).forEach((name, e) -> {
            List<String> old = before == null ? List.of() : before.list(name);
            List<String> now = e.on(old);
            List<String> gone = old.stream().filter(w -> !now.contains(w)).toList();
            List<String> come = now.stream().filter(w -> !old.contains(w)).toList();
            parts.add(name
                    + (gone.isEmpty() ? "" : " without " + String.join(", ", gone))
                    + (come.isEmpty() ? "" : (gone.isEmpty() ? " with " : ", with ") + String.join(", ", come))
                    + (gone.isEmpty() && come.isEmpty() ? " as before" : ""));
        });
        return String.join("; ", parts);
    }
}
