package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandLoad.Kind;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Unit;

/** What a record gives a load calculation. What it does not give is asked for. */
public final class RecordedDwelling {
    private static final double SQUARE_METRES_IN_SQUARE_FOOT = Unit.SQUARE_FOOT.toBase(1);
    private static final String SKIP = "skip";

    private RecordedDwelling() {}

    /**
     * {@return the dwelling of a record}
     *
     * @param told what people said beside the record
     */
    public static Dwelling of(House house, Told told) {
        Map<String, String> asked = new LinkedHashMap<>();
        List<DemandLoad> loads = new ArrayList<>();
        for (Box box : house.boxes().values()) {
            for (Device device : box.devices().values()) {
                if (!told.without().contains(device.name())) {
                    recorded(device, told, loads, asked);
                }
            }
        }
        loads.addAll(told.loads());
        told.loads().stream().filter(DemandLoad::isUnknown).forEach(l -> asked.put(l.name(), nameplate(l)));
        Double area = told.area() != null ? told.area() : area(house.area());
        if (area == null) {
            asked.put("?area", "What is the floor area by outside dimensions? Say --area, in ft2.");
        }
        if (told.smallAppliance() == null) {
            asked.put(
                    "?small",
                    "How many small-appliance circuits (kitchen, dining) are there? At least two are counted. Say --small-appliance.");
        }
        if (told.laundry() == null) {
            asked.put("?laundry", "How many laundry circuits are there? At least one is counted. Say --laundry.");
        }
        @Nullable Source service = service(house);
        double volts = service != null
                        && (service.system() == SourceSystem.WYE_120_208
                                || service.system() == SourceSystem.WYE_120_208_TWO_LEGS)
                ? Dwelling.WYE
                : Dwelling.SPLIT_PHASE;
        Double rating = told.rating() != null ? told.rating() : rating(house, service);
        return new Dwelling(
                area, told.smallAppliance(), told.laundry(), loads, volts, rating, List.copyOf(asked.values()));
    }

    private static void recorded(Device device, Told told, List<DemandLoad> loads, Map<String, String> asked) {
        String word = device.load() == null ? device.kind().name() : device.load();
        Map<?, ?> row = DemandTables.recorded(word);
        if (row == null) {
            if (device.kind().family() == DeviceKind.Family.APPLIANCE) {
                asked.put(
                        device.name(),
                        "What is " + device.name()
                                + ", a hard-wired load, and how much does it take? Say --load with its kind.");
            }
            return;
        }
        String kind = String.valueOf(row.get("kind"));
        if (kind.equals(SKIP)) {
            return;
        }
        Double said = told.nameplates().get(device.name());
        Kind what = Kind.find(kind).orElseThrow();
        DemandLoad load = new DemandLoad(
                device.name(),
                what,
                said != null
                        ? said
                        : device.watts() == null ? null : device.watts().base(),
                false,
                row.containsKey("motor") || isMotor(what),
                row.containsKey("neutral"),
                null);
        loads.add(load);
        if (load.isUnknown()) {
            asked.put(load.name(), nameplate(load));
        }
    }

    /** {@return whether loads of a kind are motors by what they are} */
    public static boolean isMotor(Kind kind) {
        return kind == Kind.COOLING || kind == Kind.HEAT_PUMP;
    }

    static String nameplate(DemandLoad load) {
        return "What does the nameplate of " + load.name() + " (" + load.kind().word() + ") say? Say --nameplate "
                + load.name() + "=VA.";
    }

    private static @Nullable Double area(@Nullable Quantity area) {
        return area == null ? null : area.base() / SQUARE_METRES_IN_SQUARE_FOOT;
    }

    private static @Nullable Source service(House house) {
        return house.sources().values().stream()
                .filter(s -> s.kind() == SourceKind.SERVICE)
                .findFirst()
                .orElse(null);
    }

    /** The least of what is known of the service and of the mains of panels that it supplies. */
    private static @Nullable Double rating(House house, @Nullable Source service) {
        List<Double> known = new ArrayList<>();
        if (service != null) {
            add(known, service.rating());
            house.panels().values().stream()
                    .filter(p -> p.supply().contains(service.name()) && p.main() != null)
                    .forEach(p -> add(known, Objects.requireNonNull(p.main()).rating()));
        }
        return known.stream().min(Double::compare).orElse(null);
    }

    private static void add(List<Double> known, @Nullable Quantity amps) {
        if (amps != null) {
            known.add(amps.base());
        }
    }
}
