package org.splicebook.panelplan.upgrade;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.House;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Move;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** The further panel itself with its feeder, its source where it is backed up, and the feeder's breaker in today's. */
final class FurtherPanel {
    private static final double ONE_LEG = 120;
    private static final int LEAST_BUS = 60;

    private final Panel panel;
    private final SubpanelWanted wanted;
    private final WireLimits limits;
    private final int amperes;
    private final Set<String> taken = new LinkedHashSet<>();
    private final String name;
    private final String feeder;

    /**
     * A panel behind one of today's.
     *
     * @param amperes of the feeder's breaker
     */
    FurtherPanel(House house, Panel panel, SubpanelWanted wanted, WireLimits limits, int amperes) {
        this.panel = panel;
        this.wanted = wanted;
        this.limits = limits;
        this.amperes = amperes;
        taken.addAll(house.panels().keySet());
        taken.addAll(house.boxes().keySet());
        taken.addAll(house.cables().keySet());
        taken.addAll(house.sources().keySet());
        house.boxes().values().forEach(b -> taken.addAll(b.devices().keySet()));
        this.name = fresh(wanted.isBackedUp() ? "backed-up" : "further");
        this.feeder = fresh(name + "-feeder");
    }

    String name() {
        return name;
    }

    /** {@return a name that nothing has, taken from now on} */
    String fresh(String wish) {
        String free = wish;
        for (int i = 2; taken.contains(free); i++) {
            free = wish + "-" + i;
        }
        taken.add(free);
        return free;
    }

    /** {@return the moves that hang it, neutral and ground apart, its feeder landed} */
    List<Move> hang(List<Circuit> circuits, Map<String, List<String>> spaces) {
        Map<String, Breaker> breakers = new LinkedHashMap<>();
        if (wanted.isBackedUp()) {
            put(
                    breakers,
                    breaker(
                            wanted.sourceSpaces(),
                            quantity(amperes),
                            Set.of(),
                            false,
                            Breaker.Position.OFF,
                            "Second source: on only while the main is off"));
        }
        for (Circuit c : circuits) {
            put(
                    breakers,
                    breaker(
                            Objects.requireNonNull(spaces.get(c.name())),
                            c.amperes() == null ? null : quantity(c.amperes()),
                            c.protects(),
                            !c.neutrals().isEmpty(),
                            Breaker.Position.ON,
                            c.label()));
        }
        MainDisconnect main = wanted.isBackedUp()
                ? new MainDisconnect(
                        wanted.sourcePoles(),
                        OvercurrentType.BREAKER,
                        quantity(amperes),
                        Set.of(),
                        Breaker.Position.ON,
                        Provenance.NONE)
                : null;
        List<List<String>> exclusive =
                main == null ? List.of() : List.of(List.of("main", String.join("+", wanted.sourceSpaces())));
        Integer bus = ServiceSize.standard(Math.max(amperes, LEAST_BUS));
        Panel is = new Panel(
                name,
                panel.place(),
                List.of(feeder),
                wanted.spaces(),
                bus == null ? null : quantity(bus),
                main,
                breakers,
                List.of(),
                Map.of(),
                exclusive,
                Map.of(),
                Map.of(),
                false,
                null,
                null,
                List.of(),
                panel.complete(),
                since());
        String size = limits.copperFor(amperes);
        List<Wire> wires = new ArrayList<>();
        for (int i = 0; i < feederPoles(); i++) {
            wires.add(wire("hot-" + (i + 1), i == 0 ? "black" : "red", size));
        }
        wires.add(wire("neutral", "white", size));
        wires.add(wire("ground", "green", UpgradeData.upTo("grounds", amperes)));
        List<Move> moves = new ArrayList<>();
        moves.add(new Move.AddPanel(is, raceway(feeder, panel.name(), wires)));
        moves.add(new Move.Shift(name, feeder + ".ground", "g"));
        moves.add(new Move.Shift(name, feeder + ".neutral", "n"));
        for (int i = 1; i <= feederPoles(); i++) {
            moves.add(new Move.Shift(name, feeder + ".hot-" + i, "line-" + i));
        }
        return moves;
    }

    private int feederPoles() {
        return wanted.hasTwoLegs() ? 2 : 1;
    }

    private static void put(Map<String, Breaker> breakers, Breaker b) {
        breakers.put(b.key(), b);
    }

    private static Breaker breaker(
            List<String> spaces,
            @Nullable Quantity rating,
            Set<Protection> protects,
            boolean neutral,
            Breaker.Position position,
            String label) {
        return new Breaker(
                spaces,
                OvercurrentType.BREAKER,
                rating,
                protects,
                neutral,
                null,
                true,
                position,
                label,
                Provenance.NONE);
    }

    static Wire wire(String its, String colour, @Nullable String size) {
        return new Wire(its, colour, size, Wire.Material.COPPER, false);
    }

    /** Single wires in a raceway to it, no longer than circuits may be extended without being new work (210.12). */
    Cable raceway(String its, String from, List<Wire> wires) {
        return cable(its, from, name, wires, new Quantity(UpgradeData.exact("extension-metres"), Unit.METRE));
    }

    private Provenance since() {
        Integer year = wanted.year();
        return new Provenance(null, year == null ? null : String.valueOf(year), null, null, null);
    }

    private Cable cable(String its, String from, String to, List<Wire> wires, @Nullable Quantity length) {
        return new Cable(
                its,
                CableKind.PVC,
                null,
                wires,
                List.of(new CableEnd.At(from), new CableEnd.At(to)),
                List.of(),
                length,
                since());
    }

    /** {@return the moves that set up its source, whose own neutral is not bonded: the bond at the service stays the only one} */
    List<Move> source() {
        if (!wanted.isBackedUp()) {
            return List.of();
        }
        String box = fresh(name + "-inlet");
        String source = fresh(name + "-source");
        String lead = fresh(name + "-source-feed");
        int poles = wanted.sourcePoles();
        List<Move> moves = new ArrayList<>();
        moves.add(new Move.AddBox(new Box(
                box,
                null,
                new Box.Shell("plastic", new Quantity(UpgradeData.exact("inlet-volume"), Unit.CUBIC_INCH), null, null),
                null,
                false,
                Map.of(),
                List.of(),
                null,
                since())));
        moves.add(new Move.AddSource(new Source(
                source,
                SourceKind.GENERATOR,
                poles == 2 ? SourceSystem.SPLIT_PHASE_120_240 : SourceSystem.SINGLE_120,
                new Quantity(
                        BigDecimal.valueOf(wanted.legBears() / ONE_LEG).setScale(1, RoundingMode.DOWN), Unit.AMPERE),
                null,
                box,
                null,
                since())));
        String size = limits.copperFor(amperes);
        List<Wire> wires = new ArrayList<>();
        for (int i = 0; i < poles; i++) {
            wires.add(wire("l" + (i + 1), i == 0 ? "black" : "red", size));
        }
        wires.add(wire("n", "white", size));
        wires.add(wire("g", "green", UpgradeData.upTo("grounds", amperes)));
        moves.add(new Move.AddCable(cable(lead, box, name, wires, null)));
        wires.forEach(w -> moves.add(new Move.Shift(box, lead + "." + w.name(), source + "." + w.name())));
        moves.add(new Move.Shift(name, lead + ".g", "g"));
        moves.add(new Move.Shift(name, lead + ".n", "n"));
        for (int i = 0; i < poles; i++) {
            moves.add(new Move.Shift(
                    name, lead + ".l" + (i + 1), wanted.sourceSpaces().get(i)));
        }
        return moves;
    }

    /** {@return the moves that give its feeder a breaker in today's panel} */
    List<Move> feed(SubpanelSpaces.Feeder at) {
        List<Move> moves = new ArrayList<>();
        String key = at.moved();
        if (key != null) {
            Breaker b = Objects.requireNonNull(panel.breakers().get(key));
            Breaker there = b.at(List.of(Objects.requireNonNull(at.to())));
            moves.add(new Move.ChangeBreaker(panel.name(), List.of(key), there));
        }
        Breaker its = breaker(at.spaces(), quantity(amperes), Set.of(), false, Breaker.Position.ON, "Panel " + name);
        moves.add(new Move.ChangeBreaker(panel.name(), List.of(), its));
        moves.add(new Move.Shift(panel.name(), feeder + ".ground", "g"));
        moves.add(new Move.Shift(panel.name(), feeder + ".neutral", "n"));
        for (int i = 0; i < at.spaces().size(); i++) {
            moves.add(new Move.Shift(
                    panel.name(), feeder + ".hot-" + (i + 1), at.spaces().get(i)));
        }
        return moves;
    }

    private static Quantity quantity(double amperes) {
        return new Quantity(BigDecimal.valueOf(Math.round(amperes)), Unit.AMPERE);
    }
}
