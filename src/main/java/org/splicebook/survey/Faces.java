package org.splicebook.survey;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.LoadPoint;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** The load points of a circuit by number, with the nodes that a meter reaches there. */
final class Faces {
    final List<LoadPoint> points;
    final int[] hot;
    final int[] neutral;
    final double[] nominal;
    /** The neutral bar of the first panel; what has no way to it has no voltage to compare with others. */
    final int reference;

    private final Map<String, Integer> byName = new HashMap<>();

    Faces(Circuit circuit) {
        points = circuit.loadPoints();
        hot = new int[points.size()];
        neutral = new int[points.size()];
        nominal = new double[points.size()];
        for (int i = 0; i < points.size(); i++) {
            LoadPoint.Pair pair = points.get(i).pairs().get(0);
            Branch b = circuit.branches().get(pair.branch());
            hot[i] = b.from();
            neutral[i] = b.to();
            nominal[i] = pair.volts();
            byName.put(points.get(i).name(), i);
        }
        Integer bar = circuit.house().panels().keySet().stream()
                .map(p -> circuit.findNode(p + ".n"))
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
        reference = bar == null ? Objects.requireNonNull(circuit.findNode(Circuit.EARTH)) : bar;
    }

    /**
     * {@return the number of a load point}
     *
     * @throws ProblemException when there is none of that name
     */
    int of(String point) {
        Integer i = byName.get(point);
        if (i == null) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("symptoms"),
                    "The house has no load point " + point + ".",
                    "Name one as the record does, for example "
                            + (points.isEmpty()
                                    ? "none: it has no load points"
                                    : points.get(0).name()) + "."));
        }
        return i;
    }
}
