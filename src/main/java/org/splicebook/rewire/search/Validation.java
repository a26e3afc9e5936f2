package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Renamed;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Severity;
import org.splicebook.wiring.LoadPointWiring;

/**
 * Judges a house after a change as a whole: what is wanted is reached; every load is served as before or better; nothing new is found
 * that is a fault or worse, or as bad as what is cured; nothing trips or is overloaded that did not before.
 */
final class Validation {
    private final State before;
    private final Pack pack;
    private final Wish wish;
    private final Severity cured;
    private final Currents currents;

    /**
     * What came out.
     *
     * @param after the house after the change
     * @param isReached whether what is wanted is reached
     * @param reasons why the change may not be made; none where it may
     * @param beside lesser findings that come with it
     * @param open findings that the next move might go for
     */
    record Verdict(State after, boolean isReached, List<String> reasons, List<String> beside, List<Finding> open) {}

    Validation(State before, Pack pack, Wish wish) {
        this.before = before;
        this.pack = pack;
        this.wish = wish;
        this.cured = wish instanceof Wish.Cure c ? target(c, before.findings()).severity() : Severity.FAULT;
        this.currents = new Currents(before.house());
    }

    private static Finding target(Wish.Cure c, List<Finding> all) {
        return all.stream()
                .filter(f -> f.key().equals(c.finding()))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("not found in the house: " + c.finding()));
    }

    Verdict of(House house, List<Move> moves) {
        State after = State.of(house, pack);
        List<String> reasons = new ArrayList<>(Service.worse(before, after));
        List<String> beside = new ArrayList<>();
        List<Finding> open = new ArrayList<>();
        Comparison found = Renamed.compare(moves, before.findings(), after.findings());
        for (Finding f : found.added()) {
            judge(f, reasons, beside, open);
        }
        for (Comparison.Change c : found.changed()) {
            if (isWorse(c)) {
                judge(c.after(), reasons, beside, open);
            }
        }
        reasons.addAll(loops(after));
        boolean isReached = isReached(after, found);
        if (!isReached && wish instanceof Wish.Cure c) {
            after.findings().stream().filter(f -> f.key().equals(c.finding())).forEach(open::add);
        }
        if (isReached && reasons.isEmpty()) {
            reasons.addAll(currents.added(house, moves));
        }
        return new Verdict(after, isReached, reasons, beside, open);
    }

    /** Two poles made one breaker hide a loop of their neutrals from the checks; it stays a loop, and no cure of anything. */
    private List<String> loops(State after) {
        boolean isAbout = wish instanceof Wish.Cure c && c.finding().startsWith("neutrals-joined/");
        return after.wiring().islands().stream()
                .filter(i -> i.landings().size() > 1 && i.poles().size() > 1)
                .filter(i -> isAbout
                        || before.wiring().islands().stream()
                                .noneMatch(b ->
                                        b.landings().size() > 1 && b.poles().size() > 1 && b.id().equals(i.id())))
                .map(i -> "The neutrals " + String.join(" and ", i.landings()) + " are joined: a loop.")
                .toList();
    }

    private void judge(Finding f, List<String> reasons, List<String> beside, List<Finding> open) {
        boolean isBad = f.severity() != Severity.ADVICE || f.severity().compareTo(cured) <= 0;
        String said = f.severity().word()
                + (f.certainty() == Certainty.FOUND ? "" : ", " + f.certainty().word()) + ": " + f.title() + ", "
                + f.subject() + ". " + f.said();
        (isBad ? reasons : beside).add(said);
        if (isBad) {
            open.add(f);
        }
    }

    /** Surer than before, or of load points that it was not of before. */
    private static boolean isWorse(Comparison.Change c) {
        return c.after().certainty().compareTo(c.before().certainty()) < 0
                || !c.before().outlets().containsAll(c.after().outlets());
    }

    /** A finding is cured when its rule finds nothing of that subject, nor of any load point that it was of. */
    private boolean isReached(State after, Comparison found) {
        if (wish instanceof Wish.Cure c) {
            Finding was = target(c, before.findings());
            boolean isGone = found.cured().contains(was);
            return isGone
                    && found.added().stream()
                            .noneMatch(f -> f.rule().equals(was.rule())
                                    && f.outlets().stream().anyMatch(was.outlets()::contains));
        }
        Wish.Protect p = (Wish.Protect) wish;
        for (String id : p.points()) {
            LoadPointWiring was = before.points().get(id);
            LoadPointWiring is = was == null ? null : Service.now(after, was);
            if (is == null || !Service.protections(is).contains(p.function())) {
                return false;
            }
        }
        return true;
    }
}
