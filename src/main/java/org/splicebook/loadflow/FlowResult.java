package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;

/**
 * All that is told of one case.
 *
 * @param solution volts and amperes
 * @param points what there is at each load point
 * @param voltages the voltage across each pair of each load point, judged
 * @param overloads wires that carry more than they may
 * @param hottest the connections that give off most, from one watt up
 * @param trips what may open, if the currents stay
 * @param cascade what follows, and where it may end
 * @param assumptions what every figure hangs on
 */
public record FlowResult(
        Solution solution,
        List<Solution.AtPoint> points,
        List<VoltageAt> voltages,
        List<Overload> overloads,
        List<Heat> hottest,
        List<Drive> trips,
        Cascade cascade,
        List<Assumption> assumptions) {
    private static final int MOST_HOT = 20;
    private static final double HOT_WATTS = 1;

    public FlowResult {
        points = List.copyOf(points);
        voltages = List.copyOf(voltages);
        overloads = List.copyOf(overloads);
        hottest = List.copyOf(hottest);
        trips = List.copyOf(trips);
        assumptions = List.copyOf(assumptions);
    }

    /**
     * {@return all that is told of a case}
     *
     * @throws org.splicebook.problem.ProblemException when the case names something that is not there
     */
    public static FlowResult of(LoadFlow flow, LoadCase state) {
        Solution s = flow.solve(state).get();
        List<Heat> hot = Heat.in(s, HOT_WATTS);
        return new FlowResult(
                s,
                s.points(),
                VoltageAt.in(s),
                Overload.in(flow, s),
                hot.subList(0, Math.min(MOST_HOT, hot.size())),
                Trips.in(s),
                Trips.follow(flow, state),
                s.assumptions());
    }

    /**
     * A branch that carries current.
     *
     * @param name its name
     * @param kind what it is
     * @param amperes from its first node to its second
     */
    public record Carried(String name, Branch.Kind kind, Complex amperes) {}

    /** {@return all wires, connections, contacts and links with at least so many amperes, in order of the record} */
    public List<Carried> carried(double atLeastAmperes) {
        List<Carried> all = new ArrayList<>();
        List<Branch> branches = solution.circuit().branches();
        for (int i = 0; i < branches.size(); i++) {
            Branch b = branches.get(i);
            boolean told = b.kind() != Branch.Kind.LOAD && b.kind() != Branch.Kind.WINDING;
            if (told && solution.isClosed(i) && solution.amperes(i).magnitude() >= atLeastAmperes) {
                all.add(new Carried(b.name(), b.kind(), solution.amperes(i)));
            }
        }
        return all;
    }
}
