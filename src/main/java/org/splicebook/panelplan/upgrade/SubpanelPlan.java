package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Comparison;

/**
 * Which circuits move to a further panel.
 *
 * @param house the house as recorded
 * @param wanted what was wanted
 * @param moves what moves
 * @param legs the leg of each circuit of one pole in the further panel, by its name: 0 or 1
 * @param stays what stays, each with its reason
 * @param isProved whether it is proved that no other choice is better
 * @param copper size of the feeder's copper; a question mark where the table does not tell
 * @param feeder amperes of the breaker before the feeder
 * @param drafted the moves and what comes of them; null where they cannot be written
 * @param notDrafted why they cannot be written; empty where they are
 * @param asked what has to be known
 * @param separate what has to be put right before
 * @param assumed what was taken to be so
 */
public record SubpanelPlan(
        House house,
        SubpanelWanted wanted,
        List<Moved> moves,
        Map<String, Integer> legs,
        List<Stays> stays,
        boolean isProved,
        String copper,
        int feeder,
        @Nullable Drafted drafted,
        String notDrafted,
        List<String> asked,
        List<String> separate,
        List<String> assumed) {
    /**
     * The change as a draft.
     *
     * @param draft its moves
     * @param after the house as it would be
     * @param findings what a check finds no more, and anew
     * @param currents what changes in the currents
     */
    public record Drafted(Draft draft, House after, Comparison findings, List<CurrentChange> currents) {
        public Drafted {
            currents = List.copyOf(currents);
        }

        /** {@return what a check would find anew beside questions and what was worse before; with that the moves are not to be made} */
        String brings() {
            List<String> anew = findings.added().stream()
                    .filter(f -> f.certainty() != Certainty.ASKED)
                    .filter(f -> findings.cured().stream()
                            .noneMatch(c -> c.subject().equals(f.subject())
                                    && c.severity().compareTo(f.severity()) < 0))
                    .map(f -> f.title() + ", " + f.subject())
                    .toList();
            return anew.isEmpty()
                    ? ""
                    : "With them a check would find anew: " + String.join("; ", anew)
                            + ". Put right first what is wrong with these circuits, or leave them where they are.";
        }
    }

    /**
     * A set of circuits that moves whole.
     *
     * @param said its circuits
     * @param labels their lines of the directory
     * @param breakers the breakers
     * @param va what it takes for hours, in volt-amperes
     * @param starts what its largest motor takes beside that while it starts, in volt-amperes
     * @param poles spaces that it takes
     * @param wires wires that have to be led over
     */
    public record Moved(
            List<String> said,
            List<String> labels,
            List<String> breakers,
            double va,
            double starts,
            int poles,
            int wires) {
        public Moved {
            said = List.copyOf(said);
            labels = List.copyOf(labels);
            breakers = List.copyOf(breakers);
        }
    }

    /** A set of circuits that stays, and why. */
    public record Stays(List<String> said, List<String> labels, double va, String why) {
        public Stays {
            said = List.copyOf(said);
            labels = List.copyOf(labels);
        }
    }

    public SubpanelPlan {
        moves = List.copyOf(moves);
        legs = Map.copyOf(legs);
        stays = List.copyOf(stays);
        asked = List.copyOf(asked);
        separate = List.copyOf(separate);
        assumed = List.copyOf(assumed);
    }

    /** {@return what all that moves takes for hours, in volt-amperes} */
    public double va() {
        return moves.stream().mapToDouble(Moved::va).sum();
    }

    /** {@return the most that it takes, while the largest motor starts and all else runs, in volt-amperes} */
    public double starting() {
        return va() + moves.stream().mapToDouble(Moved::starts).max().orElse(0);
    }
}
