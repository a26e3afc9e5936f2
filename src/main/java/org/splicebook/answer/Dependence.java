package org.splicebook.answer;

import java.util.ArrayList;
import java.util.List;

/** That somebody depends on power, said before anything is switched off, and not who. The one place for its words. */
public final class Dependence {
    /** What is said of one house. */
    public static final String HERE =
            "Someone here depends on a device that needs power. Tell them first, and switch nothing off before it is settled how they"
                    + " do without; a manager of this house knows whom.";

    private Dependence() {}

    /** {@return what is said of several} */
    public static String in(List<String> parts) {
        return "Someone depends on a device that needs power in " + String.join(", ", parts)
                + ". Tell them first, and switch nothing off before it is settled how they do without; a manager knows whom.";
    }

    /** {@return the answer with those words before all other cautions, if it can lead to a switch} */
    public static Answer before(Answer a, String words) {
        if (!a.cautions().contains(Caution.LEVER.words()) || a.cautions().contains(words)) {
            return a;
        }
        List<String> cautions = new ArrayList<>(List.of(words));
        cautions.addAll(a.cautions());
        return new Answer(
                a.heading(),
                a.outcome(),
                a.rows(),
                a.sections(),
                a.assumed(),
                a.notProven(),
                a.wouldSettle(),
                cautions);
    }
}
