package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Severity;

/** The changes that searches of a house begin with, one finding after the other, to be judged with nothing left out. */
public final class FullValidations {
    /** So many of each finding's, spread over them. */
    private static final int OF_EACH = 12;

    private final Validation validation;
    private final List<Made> all = new ArrayList<>();

    /** A change and the house after it. */
    private record Made(House house, List<Move> moves) {}

    private FullValidations(House house, Pack pack) {
        State before = State.of(house, pack);
        validation = new Validation(before, pack, new Wish.Apart(List.of()));
        for (Finding f : before.findings()) {
            if (f.certainty() == Certainty.FOUND && f.severity() != Severity.ADVICE) {
                Steps steps = new Steps(new Wish.Cure(f.key()), Kinds.standard());
                List<List<Move>> some = steps.from(before, steps.about(before), false);
                for (int i = 0; i < some.size(); i += 1 + some.size() / OF_EACH) {
                    List<Move> moves = some.get(i);
                    Result<House> made = Moves.apply(house, moves);
                    if (made.isOk()) {
                        all.add(new Made(made.get(), moves));
                    }
                }
            }
        }
    }

    /** {@return those of a house} */
    public static FullValidations of(House house, Pack pack) {
        return new FullValidations(house, pack);
    }

    /** {@return how many there are} */
    public int count() {
        return all.size();
    }

    /** {@return how much speaks against one of them: wiring, rules, all load cases in all positions of the levers} */
    public int judge(int number) {
        Made m = all.get(number % all.size());
        return validation.everything(m.house, m.moves);
    }
}
