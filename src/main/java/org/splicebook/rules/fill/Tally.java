package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.rules.fill.FillTables.Article;
import org.splicebook.rules.fill.FillTables.Method;

/** Counts what is in a box, item by item (NEC 314.16(B)). */
final class Tally {
    private final Contents in;
    private final Method method;
    private final List<FillItem> items = new ArrayList<>();

    private Tally(Contents in, Method method) {
        this.in = in;
        this.method = method;
    }

    /** {@return what each item counts by that way of counting} */
    static List<FillItem> of(Contents in, Method method) {
        Tally tally = new Tally(in, method);
        tally.wires();
        tally.leads();
        tally.clamps();
        tally.fittings();
        tally.yokes();
        tally.grounds();
        tally.blocks();
        return tally.items;
    }

    /** {@return the room that all takes} */
    static Room used(Contents in, Method method) {
        return used(of(in, method), in);
    }

    /** {@return the room that the items take, of a box that may hold more} */
    static Room used(List<FillItem> items, Contents in) {
        Room used = items.stream().map(FillItem::room).reduce(Room.NONE, Room::plus);
        return in.mayHoldMore() ? used.unbounded() : used;
    }

    private void add(String item, String what, List<String> about, String count, Room room) {
        Article a = FillTables.article(item);
        items.add(new FillItem(what, about, count, room, a.article(), a.mark()));
    }

    private void wires() {
        Map<String, List<Contents.Wire>> alike = new LinkedHashMap<>();
        for (Contents.Wire w : in.wires()) {
            String how =
                    w.fewest() == 0 ? "Wires that may end here, " : w.most() > 1 ? "Wires passing uncut, " : "Wires, ";
            alike.computeIfAbsent(how + Sizes.said(w.size()), k -> new ArrayList<>())
                    .add(w);
        }
        alike.forEach((what, some) -> {
            int fewest = some.stream().mapToInt(Contents.Wire::fewest).sum();
            int most = some.stream().mapToInt(Contents.Wire::most).sum();
            Room each = some.get(0).room();
            add(
                    what.contains("uncut") ? "passing" : "wires",
                    what,
                    names(some),
                    times(fewest, most, each),
                    each.times(fewest, most));
        });
    }

    private void leads() {
        for (Contents.Leads l : in.leads()) {
            if (l.most() > 0) {
                add(
                        "leads",
                        "Wires of its own",
                        List.of(l.device()),
                        times(l.fewest(), l.most(), FillTables.LEAD),
                        FillTables.LEAD.times(l.fewest(), l.most()));
            }
        }
    }

    private void clamps() {
        if (!Boolean.FALSE.equals(in.clamps())) {
            Room largest = in.largest();
            int fewest = in.clamps() == null ? 0 : 1;
            add(
                    "clamps",
                    "Clamps inside, all together",
                    List.of(),
                    times(fewest, 1, largest),
                    largest.times(fewest, 1));
        }
    }

    private void fittings() {
        for (String f : in.fittings()) {
            add("fittings", "Fixture " + f, List.of(), times(1, 1, in.largest()), in.largest());
        }
    }

    private void yokes() {
        for (Contents.Yoke y : in.yokes()) {
            add(
                    "devices",
                    "Device, two for each gang",
                    List.of(y.device()),
                    times(2 * y.fewestGangs(), 2 * y.mostGangs(), y.wire()),
                    y.wire().times(2 * y.fewestGangs(), 2 * y.mostGangs()));
        }
    }

    private void grounds() {
        if (in.grounds().isEmpty()) {
            return;
        }
        int fewest = in.grounds().stream().mapToInt(Contents.Wire::fewest).sum();
        int most = in.grounds().stream().mapToInt(Contents.Wire::most).sum();
        Room largest = Contents.largest(in.grounds());
        double leastCount = fewest == 0 ? 0 : counted(fewest);
        add(
                "grounds",
                "Grounds, all " + most + " together",
                names(in.grounds()),
                times(leastCount, counted(most), largest),
                largest.times(leastCount, counted(most)));
    }

    private double counted(int grounds) {
        return 1 + method.eachFurther() * Math.max(0, grounds - method.groundsInOne());
    }

    private void blocks() {
        if (method.countsTerminalBlocks()) {
            for (Contents.Block b : in.blocks()) {
                add("terminal-blocks", "Terminal block", List.of(), times(1, 1, b.wire()), b.wire());
            }
        }
    }

    private static List<String> names(List<Contents.Wire> wires) {
        return wires.stream().map(Contents.Wire::name).toList();
    }

    private static String times(double fewest, double most, Room each) {
        String count = fewest == most ? number(fewest) : number(fewest) + " to " + number(most);
        return count + " x " + each.said();
    }

    private static String number(double n) {
        if (n == Math.rint(n)) {
            return String.valueOf((long) n);
        }
        return new java.math.BigDecimal(String.valueOf(n)).stripTrailingZeros().toPlainString();
    }
}
