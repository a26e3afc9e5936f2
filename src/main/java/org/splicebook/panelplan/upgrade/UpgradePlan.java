package org.splicebook.panelplan.upgrade;

import java.util.List;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.schedule.Schedule;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rules.Comparison;

/**
 * A plan for a new panel.
 *
 * @param before the house as recorded
 * @param after the house as it would be
 * @param was today's panel
 * @param wanted what was wanted
 * @param circuits the breakers of the new panel
 * @param schedule where each of them goes
 * @param draft the moves that make it
 * @param findings what a check finds no more, and anew
 * @param currents what changes in the currents
 * @param demands the demand of the house with what is new, held against the new main
 * @param legsBefore demand on each leg of today's panel in volt-amperes
 * @param legsAfter the same of the new one
 * @param asked what has to be known
 * @param separate what has to be put right before
 * @param assumed what was taken to be so
 */
public record UpgradePlan(
        House before,
        House after,
        Panel was,
        Wanted wanted,
        List<Circuit> circuits,
        Schedule schedule,
        Draft draft,
        Comparison findings,
        List<CurrentChange> currents,
        List<Demand> demands,
        List<Double> legsBefore,
        List<Double> legsAfter,
        List<String> asked,
        List<String> separate,
        List<String> assumed) {
    public UpgradePlan {
        circuits = List.copyOf(circuits);
        currents = List.copyOf(currents);
        demands = List.copyOf(demands);
        legsBefore = List.copyOf(legsBefore);
        legsAfter = List.copyOf(legsAfter);
        asked = List.copyOf(asked);
        separate = List.copyOf(separate);
        assumed = List.copyOf(assumed);
    }

    /** {@return what two or three legs differ by, as a share of the greatest; 0 where nothing is on them} */
    public static double unbalance(List<Double> legs) {
        double most = legs.stream().mapToDouble(x -> x).max().orElse(0);
        double least = legs.stream().mapToDouble(x -> x).min().orElse(0);
        return most <= 0 ? 0 : (most - least) / most;
    }
}
