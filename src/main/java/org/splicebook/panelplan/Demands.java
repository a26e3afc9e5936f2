package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand.Method;
import org.splicebook.panelplan.DemandLoad.Kind;
import org.splicebook.record.House;

/** Load calculations of one dwelling and of many: NEC article 220, article 120 from 2026. */
public final class Demands {
    static final String ONE = "";
    private static final double PHASES = Math.sqrt(3);

    private Demands() {}

    /** {@return the editions that are known, oldest first} */
    public static List<Integer> editions() {
        return DemandTables.editions();
    }

    /** {@return the edition that a house goes by, or the known one before it; the last but one where its record says none} */
    public static int edition(House house) {
        List<Integer> known = editions();
        String said = house.code() == null ? "" : house.code().edition();
        int wanted = said.matches("[0-9]{4}") ? Integer.parseInt(said) : known.get(known.size() - 2);
        return known.stream().filter(e -> e <= wanted).reduce(known.get(0), (a, b) -> b);
    }

    /** {@return the standard method (part III), with its neutral} */
    public static Demand standard(Dwelling d, int edition) {
        return StandardMethod.of(d, edition);
    }

    /** {@return the optional method for one dwelling, 220.82} */
    public static Demand optional(Dwelling d, int edition) {
        Sheet s = new Sheet(d, edition);
        boolean outside = DemandTables.value("vehicle-outside", edition) > 0;
        double sum = s.general("general-va", "optional-general")
                + s.nameplates("optional", Kind.APPLIANCE, Kind.RANGE, Kind.DRYER)
                + (outside ? 0 : s.nameplates("vehicle-optional", Kind.VEHICLE));
        s.reduced(
                sum,
                DemandTables.value("optional-first", edition),
                DemandTables.factor("optional-percent", edition),
                "optional");
        optionalClimate(s, d, edition);
        if (outside) {
            d.of(Kind.VEHICLE)
                    .forEach(l ->
                            s.add(Sheet.said(l), l.counted(), l.setPoint() == null ? "vehicle-optional" : "managed"));
        }
        List<String> notes = new ArrayList<>();
        double least = DemandTables.value("optional-service-least", edition);
        boolean applies = d.rating() == null || d.rating() >= least;
        if (d.rating() == null || !applies) {
            notes.add("Only for a service or feeder of " + Sheet.number(least) + " A or more.");
        }
        if (edition == 2023 && !d.of(Kind.VEHICLE).isEmpty()) {
            notes.add(
                    "Vehicle charging at nameplate: the usual reading is that the floor of 220.57 does not reach into 220.82.");
        }
        if (!d.of(Kind.STRIP_HEAT).isEmpty() && !d.of(Kind.HEAT_PUMP).isEmpty()) {
            notes.add(
                    "Strips that the heat pump locks out count nothing: leave them out if the two cannot run together.");
        }
        return done(Method.OPTIONAL, ONE, edition, s, d, null, applies, notes);
    }

    private static void optionalClimate(Sheet s, Dwelling d, int edition) {
        if (d.loads().stream().noneMatch(l -> l.kind().isClimate())) {
            return;
        }
        double blower = d.sum(Kind.AIR_HANDLER);
        double pump = d.sum(Kind.HEAT_PUMP);
        double strips = d.sum(Kind.STRIP_HEAT) * DemandTables.factor("strip-percent", edition);
        double rooms = d.sum(Kind.ROOM_HEATER);
        double controls = DemandTables.value("many-heaters-from", edition);
        // Those of unknown size count 0, so they do not bring down the percentage of the others either.
        boolean isMany =
                d.of(Kind.ROOM_HEATER).stream().filter(l -> !l.isUnknown()).count() >= controls;
        boolean mayBeMany = d.open() || d.of(Kind.ROOM_HEATER).size() >= controls;
        double many = rooms * DemandTables.factor("many-heaters-percent", edition);
        double heaters = isMany ? many : rooms * DemandTables.factor("few-heaters-percent", edition);
        double cool = blower + d.sum(Kind.COOLING) + pump;
        double heat = blower + pump + strips + heaters;
        double leastHeat = mayBeMany ? heat - heaters + many : heat;
        s.mayBeLess(Math.max(cool, heat) - Math.max(cool, leastHeat));
        d.loads().stream()
                .filter(l -> l.kind().isClimate())
                .forEach(l -> s.step(Sheet.said(l), l.counted(), "optional-climate"));
        s.add(
                "Larger of cooling " + Sheet.number(cool) + " VA and heating " + Sheet.number(heat)
                        + " VA (strips and room heaters reduced)",
                Math.max(cool, heat),
                "optional-climate");
    }

    /**
     * {@return the method for an existing dwelling, 220.83: with new heating or cooling its part (B), else part (A) in each of the three
     * readings that are met}
     */
    public static List<Demand> existing(Dwelling d, int edition) {
        boolean isNewClimate = d.loads().stream().anyMatch(l -> l.kind().isClimate() && l.isNew());
        if (isNewClimate) {
            return List.of(existing(d, edition, "B: heating or cooling at 100 %", Reading.FULL));
        }
        if (d.loads().stream().noneMatch(l -> l.kind().isClimate())) {
            return List.of(existing(d, edition, "A", Reading.OUT));
        }
        return List.of(
                existing(d, edition, "A, heating and cooling left out", Reading.OUT),
                existing(d, edition, "A, counted among the appliances", Reading.AMONG),
                existing(d, edition, "A, added at 100 %", Reading.FULL));
    }

    private enum Reading {
        OUT,
        AMONG,
        FULL
    }

    private static Demand existing(Dwelling d, int edition, String said, Reading reading) {
        Sheet s = new Sheet(d, edition);
        String article = said.startsWith("B") ? "existing-b" : "existing-a";
        double sum = s.general("existing-va", "existing-general")
                + s.nameplates(article, Kind.APPLIANCE, Kind.RANGE, Kind.DRYER, Kind.VEHICLE);
        double both = d.sum(Kind.HEAT_PUMP, Kind.AIR_HANDLER);
        double climate = both + Math.max(d.sum(Kind.STRIP_HEAT, Kind.ROOM_HEATER), d.sum(Kind.COOLING));
        if (reading == Reading.AMONG) {
            sum += s.step("Heating or cooling, the larger", climate, article);
        }
        s.reduced(
                sum,
                DemandTables.value("existing-first", edition),
                DemandTables.factor("optional-percent", edition),
                article);
        if (reading == Reading.FULL) {
            s.add("Heating or cooling, the larger, at 100 %", climate, article);
        }
        List<String> notes = new ArrayList<>();
        if (article.equals("existing-a") && climate > 0) {
            notes.add(
                    "The article does not name existing heating and cooling: three readings are met. Ask the inspector which holds.");
        }
        if (edition >= 2026) {
            notes.add("The unit load of this article in 2026 is not sure: look at the printed code.");
        }
        if (d.of(Kind.ROOM_HEATER).size() >= DemandTables.value("many-heaters-from", edition)) {
            notes.add(
                    "The article names fewer than four heaters with controls of their own; more are counted in full here.");
        }
        return done(Method.EXISTING, said, edition, s, d, null, true, notes);
    }

    /**
     * {@return the method by metered demand, 220.87: once with new loads as they are, once with new vehicle charging as a continuous load}
     *
     * @param peak what was recorded
     */
    public static List<Demand> metered(Dwelling d, Metering peak, int edition) {
        Demand plain = metered(d, peak, edition, 1, "new loads at nameplate");
        boolean charges = d.of(Kind.VEHICLE).stream().anyMatch(DemandLoad::isNew);
        return charges
                ? List.of(
                        plain,
                        metered(
                                d,
                                peak,
                                edition,
                                DemandTables.factor("continuous-percent", edition),
                                "new vehicle charging at 125 %"))
                : List.of(plain);
    }

    private static Demand metered(Dwelling d, Metering peak, int edition, double vehicle, String said) {
        Dwelling newOnes = d.keep(DemandLoad::isNew);
        Sheet s = new Sheet(newOnes, edition);
        double factor = DemandTables.factor("metered-percent", edition);
        if (peak.raised() != 1) {
            s.step(
                    "Greatest of " + Sheet.number(peak.peak()) + " VA raised by " + Sheet.number(peak.raised())
                            + " for its long intervals",
                    peak.peak() * peak.raised(),
                    "metered");
        }
        if (peak.season() > 0) {
            s.step("Heating or cooling of another season", peak.season(), "metered");
        }
        s.add(
                "Greatest recorded demand: " + Sheet.number(peak.va()) + " VA at " + percent(factor),
                peak.va() * factor,
                "metered");
        for (DemandLoad l : newOnes.loads()) {
            double by = l.kind() == Kind.VEHICLE ? vehicle : 1;
            s.add(Sheet.said(l) + (by > 1 ? " at " + percent(by) : ""), l.counted() * by, "metered");
        }
        List<String> asked = new ArrayList<>(newOnes.loads().stream()
                .filter(DemandLoad::isUnknown)
                .map(RecordedDwelling::nameplate)
                .toList());
        asked.addAll(peak.asked());
        Dwelling alone = new Dwelling(0.0, null, null, newOnes.loads(), d.volts(), d.rating(), asked, false, List.of());
        return done(
                Method.METERED,
                said,
                edition,
                s,
                alone,
                null,
                true,
                List.of("Holds only where the record is of a whole year, or of 30 days by the article's conditions"
                        + " (not with solar, other sources or peak shaving)."));
    }

    /**
     * {@return the optional method for a building of many dwellings, 220.84, on a three-phase wye of 208 V; house loads come on top}
     *
     * @param units the dwellings; at least three, with electric cooking and electric heat or cooling
     */
    public static Demand units(List<Dwelling> units, int edition) {
        Dwelling first = units.get(0);
        Sheet s = new Sheet(first, edition);
        double connected = 0;
        for (Dwelling d : units) {
            Sheet own = new Sheet(d, edition);
            double both = d.sum(Kind.HEAT_PUMP, Kind.AIR_HANDLER);
            connected += own.general("general-va", "general")
                    + d.sum(Kind.APPLIANCE, Kind.RANGE, Kind.DRYER, Kind.VEHICLE)
                    + both
                    + Math.max(d.sum(Kind.STRIP_HEAT, Kind.ROOM_HEATER), d.sum(Kind.COOLING));
        }
        s.step("Connected load of " + units.size() + " dwellings", connected, "units");
        List<Double> row = DemandTables.from("units", units.size());
        double factor = row == null ? 1 : row.get(0) / 100;
        s.add(Sheet.number(connected) + " VA at " + percent(factor), connected * factor, "units");
        List<String> notes = new ArrayList<>();
        notes.add("House loads come on top.");
        if (row == null) {
            notes.add("Only for three dwellings and more: nothing is reduced here.");
        }
        if (units.stream().anyMatch(d -> d.of(Kind.RANGE).isEmpty())) {
            notes.add("Only for dwellings with electric cooking: one has none here.");
        }
        if (units.stream()
                .anyMatch(d -> d.loads().stream().noneMatch(l -> l.kind().isClimate()))) {
            notes.add("Only for dwellings with electric heat or cooling: one has none here.");
        }
        List<String> asked =
                units.stream().flatMap(d -> d.asked().stream()).distinct().toList();
        double amps = s.total() / (Dwelling.WYE * PHASES);
        return new Demand(
                Method.UNITS,
                ONE,
                edition,
                s.lines(),
                s.total(),
                amps,
                amps,
                null,
                null,
                asked,
                notes.size() == 1,
                notes);
    }

    static Demand done(
            Method method,
            String reading,
            int edition,
            Sheet s,
            Dwelling d,
            @Nullable Double neutral,
            boolean applies,
            List<String> notes) {
        return new Demand(
                method,
                reading,
                edition,
                s.lines(),
                s.total(),
                s.total() / d.volts(),
                s.least() / d.volts(),
                neutral,
                d.rating(),
                d.asked(),
                applies,
                notes);
    }

    static String percent(double factor) {
        return Sheet.number(factor * 100) + " %";
    }
}
