package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.wiring.Crossing;
import org.splicebook.wiring.Derivation;

/**
 * Whether a ground-fault unit will hold under the loads of a case.
 *
 * @param device the unit: {@code bath-gf}, {@code main.8}
 * @param allOn the residual with every load of the case on, in amperes
 * @param worst the largest residual that some of those loads make together, in amperes
 * @param time when it opens at the largest residual
 * @param shares what each load that counts adds when it is on alone, most first
 * @param crossings the crossings that go past it, and the neutrals on ground behind it
 */
public record DeviceHolds(
        String device, double allOn, double worst, TripTime time, List<Share> shares, List<Crossing> crossings) {
    /** What one load adds to the residual, in amperes. */
    public record Share(String loadPoint, double amperes, TripTime time) {}

    /** A residual of a tenth of a milliampere is none. */
    private static final double NOTHING = 1e-4;

    public DeviceHolds {
        shares = List.copyOf(shares);
        crossings = List.copyOf(crossings);
    }

    /** {@return whether no unit of its kind opens, whichever of these loads are on} */
    public boolean holds() {
        return !time.may();
    }

    /**
     * {@return whether a ground-fault unit holds}
     *
     * @throws ProblemException when there is no such unit, or the case names something that is not there
     */
    public static Report<DeviceHolds> of(LoadFlow flow, LoadCase state, String device) {
        Sensor sensor = flow.circuit().sensors().stream()
                .filter(s -> s.name().equals(device))
                .findFirst()
                .orElseThrow(() -> new ProblemException(Problem.error(
                        ProblemKind.DANGLING_NAME,
                        Where.field("device"),
                        "There is no protective device \"" + device + "\".",
                        "Name a ground-fault receptacle, or a breaker that protects, as main.8.")));
        Solution all = flow.solve(state).get();
        LoadCase off = state;
        for (Loads.On on : Loads.in(all.circuit(), all.state())) {
            off = off.load(name(all, on), Load.OFF);
        }
        List<Share> shares = new ArrayList<>();
        List<Complex> each = new ArrayList<>();
        Complex standing = sum(flow.solve(off).get(), sensor);
        for (Loads.On on : Loads.in(all.circuit(), all.state())) {
            Complex alone = sum(flow.solve(off.load(name(all, on), on.load())).get(), sensor);
            Complex adds = alone.minus(standing);
            if (adds.magnitude() > NOTHING) {
                each.add(adds);
                shares.add(new Share(name(all, on), adds.magnitude(), TripCurves.residual(alone.magnitude())));
            }
        }
        shares.sort((a, b) -> Double.compare(b.amperes, a.amperes));
        double allOn = sum(all, sensor).magnitude();
        double worst = Math.max(allOn, worst(standing, each));
        List<Crossing> crossings = Derivation.derive(flow.circuit().house()).crossings().stream()
                .filter(c -> device.equals(c.device()))
                .toList();
        return Report.on(
                all,
                List.of(new DeviceHolds(device, allOn, worst, TripCurves.residual(worst), shares, crossings)),
                "Opens from 6 mA on, holds below 4 mA ("
                        + TripCurves.groundFault().source() + "); between them it may do either.",
                "No leakage of appliances, motors or long cables is counted; each adds some.",
                "A unit with a grounded-neutral detector may open with nothing on where neutral and ground meet behind it.");
    }

    private static String name(Solution s, Loads.On on) {
        return s.circuit().branches().get(on.branch()).name();
    }

    private static Complex sum(Solution s, Sensor sensor) {
        Complex sum = Complex.ZERO;
        for (int b : sensor.branches()) {
            sum = sum.plus(s.amperes(b));
        }
        return sum;
    }

    /** The largest sum of some of the shares: for each direction, all that go that way. */
    private static double worst(Complex standing, List<Complex> each) {
        double most = standing.magnitude();
        for (Complex direction : each) {
            for (double turn = -90; turn <= 90; turn += 15) {
                Complex d = direction.times(Complex.polar(1 / direction.magnitude(), turn));
                Complex sum = standing;
                for (Complex c : each) {
                    if (c.re() * d.re() + c.im() * d.im() > 0) {
                        sum = sum.plus(c);
                    }
                }
                most = Math.max(most, sum.magnitude());
            }
        }
        return most;
    }
}
