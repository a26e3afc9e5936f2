package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.Kinds;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.SharedDemand;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Place;
import org.splicebook.record.Protection;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** Circuits for loads that are to be added: breaker, cable, box, device, and the moves that bring them in. */
final class NewCircuits {
    private static final double ONE_LEG = 120;

    /**
     * A new circuit.
     *
     * @param circuit its breaker
     * @param size copper of its wires; null beyond the table
     * @param ground copper of its ground
     * @param kind what is put in
     * @param word what hangs on it, in the words of a house file
     * @param load the load
     * @param hasDisconnect whether a disconnect stands before it
     */
    record Made(
            Circuit circuit,
            @Nullable String size,
            @Nullable String ground,
            DeviceKind kind,
            String word,
            DemandLoad load,
            boolean hasDisconnect) {}

    private final House house;
    private final Wanted wanted;
    private final WireLimits limits;
    private final SharedDemand shared;
    private final Notes notes;
    private final Map<String, Set<Protection>> protects;

    /**
     * @param protects what new circuits are to protect from, by the load's name
     */
    NewCircuits(
            House house,
            Wanted wanted,
            WireLimits limits,
            SharedDemand shared,
            Notes notes,
            Map<String, Set<Protection>> protects) {
        this.protects = protects;
        this.house = house;
        this.wanted = wanted;
        this.limits = limits;
        this.shared = shared;
        this.notes = notes;
    }

    List<Made> all(double volts) {
        List<Made> all = new ArrayList<>();
        for (DemandLoad l : wanted.told().loads()) {
            all.add(made(l, l.onNeutral() ? ONE_LEG : volts));
        }
        return all;
    }

    private Made made(DemandLoad l, double volts) {
        Map<String, String> row = Objects.requireNonNull(
                UpgradeData.rows("new-loads").get(l.kind().word()), l.kind().word());
        String kindName = l.onNeutral()
                ? UpgradeData.words("on-one-leg").getOrDefault(l.kind().word(), "appliance-120")
                : row.getOrDefault("kind", "appliance-240");
        DeviceKind kind = Objects.requireNonNull(Kinds.standard().get(kindName), kindName);
        boolean isContinuous = row.getOrDefault("continuous", "yes").equals("yes");
        double va = l.setPoint() != null ? l.setPoint() : l.va() == null ? 0 : l.va();
        double taken = va / volts * (isContinuous ? UpgradeData.number("continuous") : 1);
        Integer rating = va <= 0 ? null : ServiceSize.standard(Math.max(15, Math.ceil(taken - 1e-6)));
        List<String> why = new ArrayList<>();
        if (rating == null) {
            notes.asked().add("How much does " + l.name() + " take? Its breaker and wire wait for it.");
        } else {
            why.add(Words.number(va / volts) + " A" + (isContinuous ? ", for hours: times 1.25 (210.20(A))" : "")
                    + "; the next standard rating is " + rating + " A (240.6(A)).");
        }
        if (row.getOrDefault("disconnect", "no").equals("yes")) {
            notes.asked()
                    .add(
                            "What does the plate of " + l.name()
                                    + " say of least wire and largest breaker (440.4)? The plate goes before what is worked out here.");
        }
        if (!wanted.places().containsKey(l.name())) {
            notes.asked()
                    .add("Where does " + l.name() + " go? Say its place; rules of place are not looked at without.");
        }
        if (!wanted.lengths().containsKey(l.name())) {
            notes.asked().add("How long is the cable of " + l.name() + "?");
        }
        String size = rating == null ? null : limits.copperFor(rating);
        String ground = rating == null ? null : UpgradeData.upTo("grounds", rating);
        int poles = l.onNeutral() ? 1 : 2;
        double share = shared.loads().getOrDefault(l.name(), va) / poles;
        List<Circuit.Pole> its = new ArrayList<>();
        for (int i = 0; i < poles; i++) {
            its.add(new Circuit.Pole("", 0, List.of(cable(l) + "." + (i == 0 ? "black" : "red")), share));
        }
        Set<Protection> given = protects.getOrDefault(l.name(), Set.of());
        boolean lands = !given.isEmpty() && hasNeutral(kind);
        if (!given.isEmpty()) {
            why.add("Protected, as a check asks of it there.");
        }
        Circuit c = new Circuit(
                l.name(),
                List.of(),
                its,
                rating == null ? null : Double.valueOf(rating),
                given,
                lands ? List.of(cable(l) + ".white") : List.of(),
                placeSaid(l) + ": " + l.name() + " (new)",
                true,
                why);
        return new Made(
                c,
                size,
                ground,
                kind,
                row.getOrDefault("load", l.kind().word()),
                l,
                row.getOrDefault("disconnect", "no").equals("yes") && !l.onNeutral());
    }

    private String placeSaid(DemandLoad l) {
        Place p = house.places().get(wanted.places().getOrDefault(l.name(), ""));
        return p == null ? "Place to be told" : p.said();
    }

    static String cable(DemandLoad l) {
        return name(l) + "-feed";
    }

    private static String name(DemandLoad l) {
        return "new-" + l.name().toLowerCase(java.util.Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    }

    /** {@return the moves that bring a new circuit in, its breaker being there} */
    List<Move> moves(Made m, String panel, List<String> spaces) {
        List<Move> moves = new ArrayList<>();
        String name = name(m.load());
        String box = name + "-box";
        boolean isTwo = m.circuit().poles().size() == 2;
        boolean hasNeutral = hasNeutral(m.kind());
        String cut = name + "-disconnect";
        moves.add(box(box, m));
        if (m.hasDisconnect()) {
            moves.add(new Move.AddDevice(
                    box, device(cut, Objects.requireNonNull(Kinds.standard().get("disconnect-2")), m, false)));
        }
        moves.add(new Move.AddDevice(box, device(name, m.kind(), m, true)));
        Quantity length = wanted.lengths().get(m.load().name());
        moves.add(new Move.AddCable(cable(cable(m.load()), panel, box, m, isTwo, hasNeutral, length)));
        moves.add(new Move.Shift(panel, cable(m.load()) + ".black", spaces.get(0)));
        if (isTwo) {
            moves.add(new Move.Shift(panel, cable(m.load()) + ".red", spaces.get(1)));
        }
        if (hasNeutral) {
            String to = m.circuit().neutrals().isEmpty() ? "n" : first(spaces) + ".neutral";
            moves.add(new Move.Shift(panel, cable(m.load()) + ".white", to));
        }
        moves.add(new Move.Shift(panel, cable(m.load()) + ".green", "g"));
        String at = cable(m.load());
        List<String> hots = isTwo ? List.of("hot-1", "hot-2") : List.of("hot");
        for (int i = 0; i < hots.size(); i++) {
            String wire = at + "." + (i == 0 ? "black" : "red");
            if (m.hasDisconnect()) {
                moves.add(new Move.Shift(box, wire, cut + ".line-" + (i + 1)));
                moves.add(new Move.Shift(box, name + "." + hots.get(i), cut + ".load-" + (i + 1)));
            } else {
                moves.add(new Move.Shift(box, wire, name + "." + hots.get(i)));
            }
        }
        if (hasNeutral) {
            moves.add(new Move.Shift(box, at + ".white", name + ".neutral"));
        }
        moves.add(
                m.hasDisconnect()
                        ? new Move.Splice(box, List.of(at + ".green", cut + ".ground", name + ".ground"), null)
                        : new Move.Shift(box, at + ".green", name + ".ground"));
        return moves;
    }

    private static String first(List<String> spaces) {
        return spaces.stream()
                .min(java.util.Comparator.comparingInt(x -> Integer.parseInt(x.replaceAll("[a-z]", ""))))
                .orElse("");
    }

    /** A charger takes none; a device that has the terminal otherwise does. */
    private static boolean hasNeutral(DeviceKind kind) {
        return kind.findTerminal("neutral").isPresent() && !kind.name().equals("vehicle-charger");
    }

    private Move box(String name, Made m) {
        return new Move.AddBox(new Box(
                name,
                wanted.places().get(m.load().name()),
                new Box.Shell("plastic", null, null, null),
                null,
                false,
                Map.of(),
                List.of(),
                null,
                Provenance.NONE));
    }

    private static Device device(String name, DeviceKind kind, Made m, boolean isLoad) {
        Double va = m.load().va();
        Double rating = m.circuit().amperes();
        return new Device(
                name,
                kind,
                rating == null ? null : new Quantity(java.math.BigDecimal.valueOf(Math.round(rating)), Unit.AMPERE),
                Map.of(),
                kind.name().equals("vehicle-charger") ? Set.of("neutral") : Set.of(),
                isLoad ? m.word() : null,
                isLoad && va != null ? new Quantity(java.math.BigDecimal.valueOf(Math.round(va)), Unit.WATT) : null,
                null,
                Provenance.NONE);
    }

    /** Single wires in a raceway, so that every wire has the colour of what it does. */
    private Cable cable(
            String name, String from, String to, Made m, boolean isTwo, boolean hasNeutral, @Nullable Quantity length) {
        List<Wire> wires = new ArrayList<>();
        wires.add(new Wire("black", "black", m.size(), Wire.Material.COPPER, false));
        if (isTwo) {
            wires.add(new Wire("red", "red", m.size(), Wire.Material.COPPER, false));
        }
        if (hasNeutral) {
            wires.add(new Wire("white", "white", m.size(), Wire.Material.COPPER, false));
        }
        wires.add(new Wire("green", "green", m.ground(), Wire.Material.COPPER, false));
        return new Cable(
                name,
                CableKind.PVC,
                null,
                wires,
                List.of(new CableEnd.At(from), new CableEnd.At(to)),
                List.of(),
                length,
                new Provenance(null, wanted.year() == null ? null : String.valueOf(wanted.year()), null, null, null));
    }
}
