package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.record.Cable;
import org.splicebook.record.Move;
import org.splicebook.record.Quantity;
import org.splicebook.record.Wire;

/** What is to be bought, with prices where a list gives them. */
final class PartsList {
    private final UpgradePlan plan;
    private final Prices prices;

    PartsList(UpgradePlan plan, Prices prices) {
        this.plan = plan;
        this.prices = prices;
    }

    /** {@return how many of each} */
    Map<String, Integer> all() {
        Map<String, Integer> parts = new LinkedHashMap<>();
        parts.put("panel " + plan.wanted().kind().title(), 1);
        plan.circuits().forEach(c -> parts.merge("breaker " + c.breaker(), 1, Integer::sum));
        long free = plan.schedule().task().frame().spaces()
                - plan.schedule().placed().stream()
                        .flatMap(p -> p.spaces().stream())
                        .distinct()
                        .count();
        add(parts, "filler plate", (int) free);
        List<LandingList.Landing> landings = new LandingList(plan).all();
        add(parts, "splice connector with pigtail", (int)
                landings.stream().filter(l -> l.work().contains("pigtail")).count());
        add(parts, "marking tape or sleeve, wires to be marked", (int)
                landings.stream().filter(l -> l.work().contains("mark as hot")).count());
        ServiceSize size = ServiceSize.ofRating(plan.wanted().kind().main());
        if (plan.draft().moves().stream().anyMatch(m -> m instanceof Move.ChangeSource)) {
            add(
                    parts,
                    "service conductors " + Objects.requireNonNullElse(size.copper(), "?") + " copper (or "
                            + Objects.requireNonNullElse(size.aluminium(), "?") + " aluminium), set",
                    1);
            add(
                    parts,
                    "grounding electrode conductor " + Objects.requireNonNullElse(size.electrodeOfCopper(), "?")
                            + " copper",
                    1);
            add(parts, "surge device for the service", 1);
        }
        for (Move m : plan.draft().moves()) {
            if (m instanceof Move.AddCable c) {
                add(parts, cable(c.cable()), 1);
            } else if (m instanceof Move.AddBox) {
                add(parts, "box or enclosure", 1);
            } else if (m instanceof Move.AddDevice d) {
                add(parts, d.device().kind().title().toLowerCase(java.util.Locale.ROOT), 1);
            }
        }
        return parts;
    }

    private static void add(Map<String, Integer> parts, String what, int n) {
        if (n > 0) {
            parts.merge(what, n, Integer::sum);
        }
    }

    private static String cable(Cable c) {
        String size = c.wires().stream()
                .filter(w -> !w.metal())
                .map(Wire::size)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse("?");
        Quantity length = c.length();
        long wires = c.wires().stream().filter(w -> !w.metal()).count();
        return wires + " wires in " + c.kind().word() + ", " + size + " copper, "
                + (length == null ? "length to be measured" : length.said());
    }

    Page page() {
        List<List<String>> rows = new ArrayList<>();
        List<String> without = new ArrayList<>();
        double[] sum = new double[1];
        all().forEach((part, n) -> {
            Double each = prices.of(part);
            if (each == null) {
                without.add(part);
            } else {
                sum[0] += each * n;
            }
            rows.add(List.of(
                    String.valueOf(n),
                    part,
                    each == null ? "" : Prices.said(each),
                    each == null ? "" : Prices.said(each * n)));
        });
        List<String> notes = new ArrayList<>();
        if (!prices.isEmpty()) {
            notes.add("Together " + Prices.said(sum[0])
                    + (without.isEmpty() ? "." : ", without what has no price: " + String.join("; ", without) + "."));
        }
        notes.add(
                "Every breaker must be listed for the panel (110.3(B)); labour, permit and the utility's part are not in it.");
        return new Page("parts", "Parts", List.of("number", "part", "each", "together"), rows, notes);
    }
}
