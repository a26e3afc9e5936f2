package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandLoad.Kind;

/** The lines of one calculation as they are put down. */
final class Sheet {
    private final Dwelling dwelling;
    private final int edition;
    private final List<Demand.Line> lines = new ArrayList<>();
    private double total;
    private double less;

    Sheet(Dwelling dwelling, int edition) {
        this.dwelling = dwelling;
        this.edition = edition;
    }

    /** Puts down a part of the total. */
    double add(String what, double va, String article) {
        lines.add(new Demand.Line(what, va, article(article), true));
        total += va;
        return va;
    }

    /** Puts down a step towards a later line. */
    double step(String what, double va, String article) {
        lines.add(new Demand.Line(what, va, article(article), false));
        return va;
    }

    /** Puts down the general load, step by step, and gives its sum. */
    double general(String perAreaKey, String article) {
        double each = DemandTables.value(perAreaKey, edition);
        double area = dwelling.area() == null ? 0 : dwelling.area();
        double circuit = DemandTables.value("circuit-va", edition);
        int small = circuits(dwelling.smallAppliance(), "small-appliance-least");
        int laundry = circuits(dwelling.laundry(), "laundry-least");
        return step(
                        "Lighting and receptacles: " + number(area) + " ft2 x " + number(each) + " VA",
                        area * each,
                        article)
                + step(
                        "Small-appliance circuits: " + small + " x " + number(circuit) + " VA",
                        small * circuit,
                        "small-appliance")
                + step("Laundry circuits: " + laundry + " x " + number(circuit) + " VA", laundry * circuit, "laundry");
    }

    /** Puts down loads at nameplate, each on its own line, and gives their sum. */
    double nameplates(String article, Kind... kinds) {
        List<Kind> wanted = List.of(kinds);
        return dwelling.loads().stream()
                .filter(l -> wanted.contains(l.kind()))
                .mapToDouble(l -> step(said(l), l.counted(), l.setPoint() == null ? article : "managed"))
                .sum();
    }

    /** Puts down the first so many at full and the rest by a percentage. */
    double reduced(double sum, double first, double factor, String article) {
        double rest = Math.max(0, sum - first);
        return add(
                "Of " + number(sum) + " VA the first " + number(Math.min(sum, first)) + " at 100 %, " + number(rest)
                        + " at " + number(factor * 100) + " %",
                Math.min(sum, first) + rest * factor,
                article);
    }

    private int circuits(@Nullable Integer said, String leastKey) {
        int least = (int) DemandTables.value(leastKey, edition);
        return said == null ? least : Math.max(said, least);
    }

    /** Says by how much the total may come down through what is not known: some of the code's factors fall with more loads. */
    void mayBeLess(double va) {
        less += Math.max(0, va);
    }

    /** {@return what the total is at least, whatever the loads that are not known turn out to be} */
    double least() {
        return total - less;
    }

    double total() {
        return total;
    }

    List<Demand.Line> lines() {
        return lines;
    }

    String article(String key) {
        return DemandTables.article(key, edition);
    }

    /** {@return a load's name, and that it is not known or managed where it is} */
    static String said(DemandLoad load) {
        return load.name()
                + (load.isNew() ? " (new)" : "")
                + (load.isUnknown() ? ": NOT KNOWN, counts 0 here" : "")
                + (load.setPoint() == null ? "" : ": held to a set point");
    }

    /** {@return a figure for a line: no decimals where there are none} */
    static String number(double value) {
        String text = String.format(Locale.ROOT, "%,.2f", value);
        return text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
    }
}
