package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.IntFunction;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.record.Quantity;

/**
 * What trips in a state of the house, and when. Breakers, fuses and mains answer to the amperes of each pole, ground-fault units to their
 * residual. Arc-fault units are not foretold: what they look at is not in a phasor.
 */
public final class Trips {
    private final List<Pole> poles;

    private Trips(List<Pole> poles) {
        this.poles = poles;
    }

    /** A pole that answers to its amperes. */
    private record Pole(int branch, Unit unit) {}

    /** {@return what every unit that may open is driven by, the earliest first} */
    public static List<Drive> in(Solution s) {
        return of(s.circuit()).driven(s);
    }

    /** {@return what answers to amperes in a circuit, to be asked of many of its solutions} */
    static Trips of(Circuit circuit) {
        List<Pole> poles = new ArrayList<>();
        List<Branch> branches = circuit.branches();
        for (int i = 0; i < branches.size(); i++) {
            Unit u = branches.get(i).kind() == Branch.Kind.CONTACT ? unit(circuit.house(), branches.get(i)) : null;
            if (u != null) {
                poles.add(new Pole(i, u));
            }
        }
        return new Trips(poles);
    }

    /** {@return what every unit that may open is driven by, the earliest first} */
    List<Drive> driven(Solution s) {
        return driven(s.circuit(), s::amperes);
    }

    /**
     * {@return the same}
     *
     * @param amperes by branch
     */
    List<Drive> driven(Circuit circuit, IntFunction<Complex> amperes) {
        List<Drive> all = new ArrayList<>();
        for (Pole p : poles) {
            Unit u = p.unit;
            double through = amperes.apply(p.branch).magnitude();
            TripTime t = through <= u.rating ? TripTime.NEVER : TripCurves.overload(u.type, through / u.rating);
            if (t.may()) {
                String at = circuit.branches().get(p.branch).name();
                all.add(new Drive(u.name, Drive.Cause.OVERLOAD, at, through, u.rating, t));
            }
        }
        for (Solution.Residual r : Solution.residuals(circuit, amperes)) {
            Sensor sensor = r.sensor();
            TripTime t = TripCurves.residual(r.amperes());
            boolean opens = circuit.gates().contains(sensor.name());
            if (t.may() && opens && sensor.functions().contains(Protection.GROUND_FAULT)) {
                double limit = Objects.requireNonNull(TripCurves.groundFault().residual())
                        .mustFrom();
                all.add(new Drive(sensor.name(), Drive.Cause.RESIDUAL, sensor.name(), r.amperes(), limit, t));
            }
        }
        all.sort((a, b) -> Double.compare(a.time().earliest(), b.time().earliest()));
        return all;
    }

    /** {@return when a pole opens that carries so many amperes; never where its rating is not recorded} */
    static TripTime time(House house, Branch pole, double amperes) {
        Unit u = unit(house, pole);
        return u == null ? TripTime.NEVER : TripCurves.overload(u.type, amperes / u.rating);
    }

    /** {@return what trips from this state on, one unit after another, and where that may end} */
    public static Cascade follow(LoadFlow flow, LoadCase state) {
        return CascadeSearch.follow(open -> in(flow.solve(with(state, open)).get()));
    }

    /** {@return the state after these have tripped} */
    public static LoadCase with(LoadCase state, Set<String> open) {
        LoadCase c = state;
        for (String unit : open) {
            c = c.open(unit);
        }
        return c;
    }

    /** What opens, as {@link LoadCase#open} names it, and its rating in amperes. */
    private record Unit(String name, OvercurrentType type, double rating) {}

    private static @Nullable Unit unit(House house, Branch pole) {
        Gate gate = pole.gate();
        if (gate == null || gate.isLever() || gate.thing().indexOf('.') < 0) {
            return null;
        }
        int dot = gate.thing().indexOf('.');
        Panel panel = house.panels().get(gate.thing().substring(0, dot));
        if (panel == null) {
            return null;
        }
        String thing = gate.thing();
        String key = thing.substring(dot + 1);
        String alone = gate.part() == null ? thing : gate.part();
        if (key.equals("neutral-fuse")) {
            return unit(thing, OvercurrentType.FUSE, panel.neutralFuse());
        }
        MainDisconnect main = panel.main();
        if (key.equals("main")) {
            return main == null
                    ? null
                    : unit(main.type() == OvercurrentType.FUSE ? alone : thing, main.type(), main.rating());
        }
        Breaker b = panel.breakers().get(key);
        boolean isPole = gate.part() != null;
        return b == null || !isPole ? null : unit(b.commonTrip() ? thing : alone, b.type(), b.rating());
    }

    private static @Nullable Unit unit(String name, OvercurrentType type, @Nullable Quantity rating) {
        return rating == null || rating.base() <= 0 ? null : new Unit(name, type, rating.base());
    }
}
