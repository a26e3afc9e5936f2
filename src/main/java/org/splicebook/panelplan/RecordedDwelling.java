package org.splicebook.panelplan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandLoad.Kind;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Unit;
import org.splicebook.wiring.Wiring;

/** What a record gives a load calculation. What it does not give is asked for, never taken from what is usual. */
public final class RecordedDwelling {
    private static final String SKIP = "skip";
    private static final double ONE_LEG = 120;
    private static final Set<PlaceKind> OF_THE_KITCHEN = Set.of(PlaceKind.KITCHEN, PlaceKind.DINING);

    private final Wiring wiring;
    private final Told told;
    private final List<DemandLoad> loads = new ArrayList<>();
    private final Map<String, String> asked = new LinkedHashMap<>();
    private final List<String> assumed = new ArrayList<>();

    private RecordedDwelling(Wiring wiring, Told told) {
        this.wiring = wiring;
        this.told = told;
    }

    /**
     * {@return the dwelling of a record}
     *
     * @param told what people said beside the record
     */
    public static Dwelling of(Wiring wiring, Told told) {
        return new RecordedDwelling(wiring, told).read();
    }

    /** {@return volts between the legs by the system that a house is on} */
    public static double volts(House house) {
        return services(house).stream()
                        .anyMatch(s -> s.system() == SourceSystem.WYE_120_208
                                || s.system() == SourceSystem.WYE_120_208_TWO_LEGS)
                ? Dwelling.WYE
                : Dwelling.SPLIT_PHASE;
    }

    private Dwelling read() {
        House house = wiring.house();
        for (Box box : house.boxes().values()) {
            box.devices().values().stream()
                    .filter(d -> !told.without().contains(d.name()))
                    .forEach(this::recorded);
        }
        for (DemandLoad load : told.loads()) {
            loads.add(load);
            if (load.isUnknown()) {
                asked.put(
                        load.name(), "How much does " + load.name() + ", which is to be added, take? Say it with add.");
            }
        }
        Double area = told.area() != null ? told.area() : area(house.area());
        if (area == null) {
            asked.put("?area", "What is the floor area by outside dimensions? Say area, in ft2 or m2.");
        } else if (told.area() == null) {
            assumed.add(
                    "The recorded floor area is taken to be by outside dimensions, without garage and open porches.");
        }
        circuits();
        if (!told.isAll()) {
            asked.put(
                    "?all",
                    "Is there any fixed load beside those listed (heat, cooling, water heater, pump, tub, range)? Add it with add; if there"
                            + " is none say all-listed.");
        }
        double volts = volts(house);
        if (volts == Dwelling.WYE) {
            assumed.add("Nameplates count as they stand; a heater made for 240 V takes three quarters of it at 208 V.");
        }
        return new Dwelling(
                area,
                told.smallAppliance(),
                told.laundry(),
                loads,
                volts,
                told.rating() != null ? told.rating() : rating(),
                List.copyOf(asked.values()),
                !told.isAll(),
                assumed);
    }

    private void recorded(Device device) {
        String word = device.load() == null ? device.kind().name() : device.load();
        double volts = volts(device.kind());
        Map<?, ?> row = DemandTables.recorded(word);
        boolean isOther =
                row != null && row.get("only") != null && Double.parseDouble(String.valueOf(row.get("only"))) != volts;
        if (row == null || isOther) {
            if (device.kind().family() == DeviceKind.Family.APPLIANCE || volts > ONE_LEG) {
                asked.put(
                        device.name(),
                        "What is " + (device.load() == null ? "" : device.load() + " ") + "on " + device.name() + " ("
                                + device.kind().title() + "), and how much does it take? Say it with add, and "
                                + device.name() + " with without.");
            }
            return;
        }
        String kind = String.valueOf(row.get("kind"));
        if (!kind.equals(SKIP)) {
            take(device, Kind.find(kind).orElseThrow(), row.containsKey("motor"), volts <= ONE_LEG);
        }
    }

    private void take(Device device, Kind kind, boolean motor, boolean onNeutral) {
        Double said = told.nameplates().get(device.name());
        Double va = said != null || device.watts() == null
                ? said
                : Double.valueOf(device.watts().base());
        DemandLoad load = new DemandLoad(device.name(), kind, va, false, motor || isMotor(kind), onNeutral, null);
        loads.add(load);
        if (load.isUnknown()) {
            asked.put(load.name(), nameplate(load));
        }
        if (kind == Kind.APPLIANCE && device.kind().family() == DeviceKind.Family.RECEPTACLE) {
            assumed.add("What is plugged into " + device.name() + " counts as fastened in place; if it is not, say "
                    + device.name() + " with without.");
        }
        if (kind == Kind.ROOM_HEATER) {
            assumed.add("Heater " + device.name() + " is taken to have a control of its own.");
        }
    }

    private void circuits() {
        if (told.smallAppliance() == null) {
            asked.put(
                    "?small",
                    "How many small-appliance circuits (kitchen, dining) are there? At least two are counted. "
                            + shown(OF_THE_KITCHEN) + " Say small-appliance.");
        }
        if (told.laundry() == null) {
            asked.put(
                    "?laundry",
                    "How many laundry circuits are there? At least one is counted. " + shown(Set.of(PlaceKind.LAUNDRY))
                            + " Say laundry.");
        }
    }

    /** What the record can say of it: which of them counts is for people to tell. */
    private String shown(Set<PlaceKind> places) {
        List<String> found = wiring.loadPoints().stream()
                .filter(l -> l.place() != null
                        && wiring.house().places().get(l.place()) != null
                        && places.contains(
                                Objects.requireNonNull(wiring.house().places().get(l.place()))
                                        .kind()))
                .filter(l -> isPlain(l.box(), l.device()))
                .flatMap(l -> l.feeds().stream().map(f -> f.breaker()))
                .distinct()
                .filter(this::isOfTwentyAmperes)
                .sorted()
                .toList();
        return found.isEmpty()
                ? "The record shows no breaker of 20 A that feeds receptacles there."
                : "Breakers of 20 A that may feed receptacles there: " + String.join(", ", found) + ".";
    }

    private boolean isPlain(String box, String name) {
        Box in = wiring.house().boxes().get(box);
        Device device = in == null ? null : in.devices().get(name);
        return device != null
                && device.load() == null
                && (device.kind().family() == DeviceKind.Family.RECEPTACLE
                        || device.kind().family() == DeviceKind.Family.PROTECTIVE);
    }

    private boolean isOfTwentyAmperes(String breaker) {
        int dot = breaker.indexOf('.');
        Panel panel = dot < 0 ? null : wiring.house().panels().get(breaker.substring(0, dot));
        if (panel == null || panel.breakers().get(breaker.substring(dot + 1)) == null) {
            return false;
        }
        Quantity rating = Objects.requireNonNull(panel.breakers().get(breaker.substring(dot + 1)))
                .rating();
        return rating != null && rating.base() == 20;
    }

    /** {@return whether loads of a kind are motors by what they are} */
    public static boolean isMotor(Kind kind) {
        return kind == Kind.COOLING || kind == Kind.HEAT_PUMP;
    }

    static String nameplate(DemandLoad load) {
        return "What does the nameplate of " + load.name() + " (" + load.kind().word() + ") say? Say nameplate "
                + load.name() + "=1200 VA.";
    }

    static double volts(DeviceKind kind) {
        return kind.loadPoints().stream()
                .flatMap(p -> p.pairs().stream())
                .mapToDouble(DeviceKind.Pair::volts)
                .max()
                .orElse(0);
    }

    private static @Nullable Double area(@Nullable Quantity area) {
        return area == null ? null : Double.valueOf(area.base() / Unit.SQUARE_FOOT.toBase(1));
    }

    private static List<Source> services(House house) {
        return house.sources().values().stream()
                .filter(s -> s.kind() == SourceKind.SERVICE)
                .toList();
    }

    /** The least of what is known of the service, the main and the bus of the panel behind it; null where one is not known. */
    private @Nullable Double rating() {
        House house = wiring.house();
        List<Source> services = services(house);
        List<Panel> behind = house.panels().values().stream()
                .filter(p -> services.stream().anyMatch(s -> p.supply().contains(s.name())))
                .toList();
        if (services.size() != 1 || behind.size() != 1) {
            asked.put(
                    "?rating",
                    "Rating of the service or feeder? The record has " + services.size() + " services and "
                            + behind.size() + " panels behind them. Say rating.");
            return null;
        }
        Panel panel = behind.get(0);
        Quantity main = panel.main() == null ? null : panel.main().rating();
        if (main == null) {
            asked.put("?rating", "What is the rating of the main of panel " + panel.name() + "? Say rating.");
            return null;
        }
        List<Double> known = new ArrayList<>(List.of(main.base()));
        add(known, services.get(0).rating());
        add(known, panel.rating());
        assumed.add(
                "Held against the least recorded rating of service, main and bus; the service conductors are to be looked at too.");
        return known.stream().min(Double::compare).orElseThrow();
    }

    private static void add(List<Double> known, @Nullable Quantity amps) {
        if (amps != null) {
            known.add(amps.base());
        }
    }
}
