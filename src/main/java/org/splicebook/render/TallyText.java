package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.rules.Tally;

/** What checks of many houses come to, as text and as JSON. */
public final class TallyText {
    private static final int TOLD = 40;

    private TallyText() {}

    /** {@return a line for each house, the worst first, then how often each rule finds} */
    public static String write(List<Tally> all, int width) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Lines.wrap(
                all.size() + " houses checked: "
                        + all.stream().mapToInt(Tally::found).sum() + " found, "
                        + all.stream().mapToInt(Tally::dangers).sum() + " of them dangers.",
                width));
        lines.addAll(Lines.wrap(FindingsText.ADVICE, width));
        lines.add("");
        for (Tally t : all.subList(0, Math.min(TOLD, all.size()))) {
            lines.addAll(Lines.bullet(
                    t.house() + (t.title().equals(t.house()) ? "" : " (" + t.title() + ")") + ": " + t.dangers()
                            + " dangers, " + t.found() + " found, " + t.possible() + " possible, " + t.asked()
                            + " asked"
                            + (t.accepted() == 0 ? "" : ", " + t.accepted() + " accepted") + ", by " + t.pack(),
                    width));
        }
        if (all.size() > TOLD) {
            lines.addAll(Lines.wrap("And " + (all.size() - TOLD) + " more, with less; --json lists all.", width));
        }
        Map<String, List<Tally>> rules = byRule(all);
        if (!rules.isEmpty()) {
            lines.add("");
            lines.addAll(Lines.wrap("By rule", width));
        }
        rules.entrySet().stream()
                .sorted((a, b) ->
                        Integer.compare(b.getValue().size(), a.getValue().size()))
                .forEach(e -> lines.addAll(Lines.bullet(
                        e.getKey() + ": in " + e.getValue().size() + " houses, "
                                + e.getValue().stream()
                                        .mapToInt(t -> t.rules().getOrDefault(e.getKey(), 0))
                                        .sum()
                                + " times",
                        width)));
        return String.join("\n", lines) + "\n";
    }

    private static Map<String, List<Tally>> byRule(List<Tally> all) {
        Map<String, List<Tally>> by = new TreeMap<>();
        all.forEach(t -> t.rules()
                .keySet()
                .forEach(r -> by.computeIfAbsent(r, k -> new ArrayList<>()).add(t)));
        return by;
    }

    /** {@return every house with its numbers} */
    public static ObjectNode json(List<Tally> all) {
        ObjectNode o = Json.object();
        o.set("houses", Json.list(all, t -> {
            ObjectNode one = Json.object()
                    .put("house", t.house())
                    .put("pack", t.pack())
                    .put("dangers", t.dangers())
                    .put("found", t.found())
                    .put("possible", t.possible())
                    .put("asked", t.asked())
                    .put("accepted", t.accepted());
            one.set("rules", Json.tree(new TreeMap<>(t.rules())));
            return one;
        }));
        return o;
    }
}
