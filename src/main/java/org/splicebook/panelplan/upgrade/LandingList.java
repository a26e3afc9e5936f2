package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.schedule.PlacedUnit;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;

/** Every wire that lands in the panel: from which terminal to which, what is to be marked, spliced, lengthened. */
final class LandingList {
    private static final Set<String> NEUTRAL_COLOURS = Set.of("white", "gray", "grey");

    private final UpgradePlan plan;

    LandingList(UpgradePlan plan) {
        this.plan = plan;
    }

    /**
     * One landing.
     *
     * @param wire the wire end
     * @param colour its colour
     * @param from today's terminal; empty where it is new
     * @param to the new terminal
     * @param missing rows' worth of wire that may be missing
     * @param work what else is to be done with it
     */
    record Landing(String wire, String colour, String from, String to, int missing, String work) {}

    List<Landing> all() {
        Map<String, String> before = landings(plan.was());
        Panel now = plan.after().panels().getOrDefault(plan.was().name(), plan.was());
        Map<String, String> after = landings(now);
        Map<String, Integer> onTerminal = new HashMap<>();
        after.values().forEach(t -> onTerminal.merge(t, 1, Integer::sum));
        List<Landing> all = new ArrayList<>();
        after.forEach((wire, to) -> {
            String from = before.getOrDefault(wire, "");
            String colour = colour(plan.after(), wire);
            int missing = missing(from, to);
            List<String> work = new ArrayList<>();
            boolean isHot = pole(now, to) != null;
            if (isHot && NEUTRAL_COLOURS.contains(colour)) {
                work.add("mark as hot (200.7(C))");
            }
            if (isHot && onTerminal.getOrDefault(to, 0) > 1) {
                work.add("splice with the others on " + to + ", one pigtail to the breaker");
            }
            if (missing > 0) {
                work.add("may be short by " + Words.number(missing * UpgradeData.number("row-inches"))
                        + " in: splice and pigtail of its own size");
            }
            if (to.equals("n")) {
                work.add("a hole of its own (408.41)");
            }
            if (to.endsWith(".neutral") && !from.endsWith(".neutral")) {
                work.add("off the bar, onto the breaker; the breaker's own neutral to the bar");
            }
            all.add(new Landing(wire, colour, from, to, missing, String.join("; ", work)));
        });
        all.sort(java.util.Comparator.comparing((Landing l) -> order(l.to())).thenComparing(Landing::wire));
        return all;
    }

    private static String order(String terminal) {
        String digits = terminal.replaceAll("[^0-9].*", "");
        return digits.isEmpty() ? "~" + terminal : "0".repeat(Math.max(0, 4 - digits.length())) + terminal;
    }

    private int missing(String from, String to) {
        for (Circuit c : plan.circuits()) {
            for (int i = 0; i < c.poles().size(); i++) {
                Circuit.Pole p = c.poles().get(i);
                if (!from.isEmpty() && p.terminal().equals(from) && p.column() > 0) {
                    PlacedUnit placed = plan.schedule().of(c.name());
                    return placed.space(i).equals(to)
                            ? plan.wanted()
                                    .reach()
                                    .missing(p.column(), placed.spaces().get(i))
                            : 0;
                }
            }
        }
        return 0;
    }

    private static @Nullable Breaker pole(Panel p, String terminal) {
        return p.breakers().values().stream()
                .filter(b -> b.spaces().contains(terminal))
                .findFirst()
                .orElse(null);
    }

    private static Map<String, String> landings(Panel p) {
        Map<String, String> all = new java.util.LinkedHashMap<>();
        for (Joint j : p.joints()) {
            String terminal = j.members().stream()
                    .filter(r -> r instanceof Ref.PanelTerminal || r instanceof Ref.BoxMetal)
                    .map(Ref::said)
                    .findFirst()
                    .orElse("capped");
            j.members().stream().filter(r -> r instanceof Ref.WireEnd).forEach(r -> all.put(r.said(), terminal));
        }
        return all;
    }

    static String colour(House house, String end) {
        int dot = end.indexOf('.');
        Cable c = house.cables().get(end.substring(0, Math.max(0, dot)));
        String name = end.substring(dot + 1).replaceAll("@.*", "");
        return c == null
                ? ""
                : c.wires().stream()
                        .filter(w -> w.name().equals(name))
                        .map(Wire::colour)
                        .findFirst()
                        .orElse("");
    }

    Page page() {
        List<List<String>> rows = all().stream()
                .map(l -> List.of(l.wire(), l.colour(), l.from().isEmpty() ? "new" : l.from(), l.to(), l.work(), ""))
                .toList();
        return new Page(
                "landings",
                "Landing list: each wire from its terminal today to its new one",
                List.of("wire", "colour", "from", "to", "work", "done"),
                rows,
                List.of("n and g are the bars. Colour tells nothing of what a wire does: go by the tag."));
    }
}
