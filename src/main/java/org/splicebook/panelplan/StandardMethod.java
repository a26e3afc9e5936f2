package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.panelplan.Demand.Method;
import org.splicebook.panelplan.DemandLoad.Kind;

/** The standard method: article 220 (120 from 2026), part III, with the neutral by 220.61. */
final class StandardMethod {
    private StandardMethod() {}

    /** {@return the standard method (part III), with its neutral} */
    static Demand of(Dwelling d, int edition) {
        Sheet s = new Sheet(d, edition);
        double general = lighting(s, edition, s.general("general-va", "general"));
        List<DemandLoad> appliances = d.of(Kind.APPLIANCE);
        double factor = applianceFactor(appliances, edition);
        addAppliances(s, d, factor, edition);
        double dryers = dryers(s, d, edition);
        double ranges = cooking(s, d);
        climate(s, d);
        double motor = d.loads().stream()
                .filter(DemandLoad::isMotor)
                .mapToDouble(DemandLoad::counted)
                .max()
                .orElse(0);
        if (motor > 0) {
            s.add(
                    "Largest motor: " + Demands.percent(DemandTables.factor("motor-percent", edition)) + " of "
                            + Sheet.number(motor) + " VA",
                    motor * DemandTables.factor("motor-percent", edition),
                    "motor");
        }
        List<String> notes = new ArrayList<>();
        vehicles(s, d, edition, notes);
        if (edition >= 2026) {
            notes.add("The demand table for lighting is believed unchanged in 2026: look at the printed code.");
        }
        return Demands.done(
                Method.STANDARD,
                Demands.ONE,
                edition,
                s,
                d,
                neutral(d, edition, general, factor, ranges, dryers),
                true,
                notes);
    }

    static double lighting(Sheet s, int edition, double sum) {
        double first = DemandTables.value("general-first", edition);
        double second = DemandTables.value("general-second", edition);
        double middle =
                Math.max(0, Math.min(sum, second) - first) * DemandTables.factor("general-second-percent", edition);
        double rest = Math.max(0, sum - second) * DemandTables.factor("general-rest-percent", edition);
        return s.add(
                "Of " + Sheet.number(sum) + " VA the first " + Sheet.number(Math.min(sum, first))
                        + " at 100 %, the rest by the table",
                Math.min(sum, first) + middle + rest,
                "general-demand");
    }

    static boolean isCounted(DemandLoad load, int edition) {
        return load.counted() >= DemandTables.value("appliance-least", edition);
    }

    static double applianceFactor(List<DemandLoad> appliances, int edition) {
        return number(appliances, edition) >= DemandTables.value("appliances-from", edition)
                ? DemandTables.factor("appliances-percent", edition)
                : 1;
    }

    private static long number(List<DemandLoad> appliances, int edition) {
        return appliances.stream()
                .filter(l -> !l.isUnknown() && isCounted(l, edition))
                .count();
    }

    /** With one more appliance the percentage may fall on all of them: the total may come down. */
    private static void mayFall(Sheet s, Dwelling d, double counted, int edition) {
        List<DemandLoad> appliances = d.of(Kind.APPLIANCE);
        double lacking = DemandTables.value("appliances-from", edition) - number(appliances, edition);
        long unknown = appliances.stream().filter(DemandLoad::isUnknown).count();
        if (lacking > 0 && (d.open() || (double) unknown >= lacking)) {
            double withThem = (counted + lacking * DemandTables.value("appliance-least", edition))
                    * DemandTables.factor("appliances-percent", edition);
            s.mayBeLess(counted - withThem);
        }
    }

    private static void addAppliances(Sheet s, Dwelling d, double factor, int edition) {
        double[] sums = new double[2];
        for (DemandLoad l : d.of(Kind.APPLIANCE)) {
            s.step(Sheet.said(l), l.counted(), l.setPoint() == null ? "appliances" : "managed");
            sums[isCounted(l, edition) ? 0 : 1] += l.counted();
        }
        if (sums[0] > 0) {
            s.add(
                    "Fixed appliances: " + Sheet.number(sums[0]) + " VA at " + Demands.percent(factor),
                    sums[0] * factor,
                    "appliances");
        }
        mayFall(s, d, sums[0], edition);
        if (sums[1] > 0) {
            s.add("Smaller ones, in full", sums[1], "appliances");
        }
    }

    private static double dryers(Sheet s, Dwelling d, int edition) {
        List<DemandLoad> dryers = d.of(Kind.DRYER);
        if (dryers.isEmpty()) {
            return 0;
        }
        double least = DemandTables.value("dryer-least", edition);
        double sum =
                dryers.stream().mapToDouble(l -> Math.max(least, l.counted())).sum();
        double factor = Cooking.dryerPercent(dryers.size()) / 100;
        return s.add(
                "Dryers: " + Sheet.number(sum) + " VA (at least " + Sheet.number(least) + " each) at "
                        + Demands.percent(factor),
                sum * factor,
                "dryers");
    }

    private static double cooking(Sheet s, Dwelling d) {
        List<DemandLoad> ranges = d.of(Kind.RANGE);
        if (ranges.isEmpty()) {
            return 0;
        }
        ranges.forEach(l -> s.step(Sheet.said(l), l.counted(), "ranges"));
        return s.add(
                "Demand of cooking by the table",
                Cooking.demand(ranges.stream().map(DemandLoad::counted).toList()),
                "ranges");
    }

    /** Heating or cooling, whichever is larger; a heat pump and a blower run with both. */
    private static double climate(Sheet s, Dwelling d) {
        double both = d.sum(Kind.HEAT_PUMP, Kind.AIR_HANDLER);
        double heat = both + d.sum(Kind.STRIP_HEAT, Kind.ROOM_HEATER);
        double cool = both + d.sum(Kind.COOLING);
        if (d.loads().stream().noneMatch(l -> l.kind().isClimate())) {
            return 0;
        }
        d.loads().stream().filter(l -> l.kind().isClimate()).forEach(l -> s.step(Sheet.said(l), l.counted(), "heat"));
        return s.add(
                "Larger of heating " + Sheet.number(heat) + " VA and cooling " + Sheet.number(cool) + " VA",
                Math.max(heat, cool),
                "heat");
    }

    private static void vehicles(Sheet s, Dwelling d, int edition, List<String> notes) {
        for (DemandLoad l : d.of(Kind.VEHICLE)) {
            if (l.setPoint() != null) {
                s.add(Sheet.said(l), l.counted(), "managed");
                continue;
            }
            double floor = DemandTables.value(l.isUnknown() ? "vehicle-unknown" : "vehicle-least", edition);
            String said = l.isUnknown() && floor > 0
                    ? l.name() + ": NOT KNOWN, so " + Sheet.number(floor) + " VA are taken"
                    : Sheet.said(l) + (floor > l.counted() ? ", at least " + Sheet.number(floor) + " VA" : "");
            s.add(said, Math.max(floor, l.counted()), "vehicle");
            if (l.isUnknown()) {
                // Where the edition has no floor under a nameplate, the plate may say less than is taken without one.
                s.mayBeLess(floor - DemandTables.value("vehicle-least", edition));
            }
        }
        if (edition < 2023 && !d.of(Kind.VEHICLE).isEmpty()) {
            notes.add(
                    "This edition has no article of its own for vehicle charging in a load calculation: nameplate in full.");
        }
    }

    /** Neutral by 220.61, in amperes. */
    private static double neutral(
            Dwelling d, int edition, double general, double factor, double ranges, double dryers) {
        double cooking = d.isWye() ? 1 : DemandTables.factor("neutral-cooking-percent", edition);
        double appliances = d.of(Kind.APPLIANCE).stream()
                .filter(DemandLoad::onNeutral)
                .mapToDouble(l -> l.counted() * (isCounted(l, edition) ? factor : 1))
                .sum();
        double climate = d.loads().stream()
                .filter(l -> l.kind().isClimate() && l.onNeutral())
                .mapToDouble(DemandLoad::counted)
                .sum();
        double motor = d.loads().stream()
                .filter(l -> l.isMotor() && l.onNeutral())
                .mapToDouble(DemandLoad::counted)
                .max()
                .orElse(0);
        double amps = (general
                        + appliances
                        + (ranges + dryers) * cooking
                        + climate
                        + motor * DemandTables.factor("motor-percent", edition))
                / d.volts();
        double over = DemandTables.value("neutral-over", edition);
        return amps <= over || d.isWye()
                ? amps
                : over + (amps - over) * DemandTables.factor("neutral-over-percent", edition);
    }
}
