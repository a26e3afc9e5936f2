package org.splicebook.answer;

import java.util.Arrays;
import java.util.List;

/** The cautions, in the order in which they are told. The one place for their words. */
public enum Caution {
    MAP(
            Leads.TO_THE_RECORD,
            "This is only as true as the record. Test every wire yourself before you touch it, and prove the tester on a live point"
                    + " before and after."),
    PROBE(Leads.TO_A_WIRE, "A contactless probe alone never shows that a wire is safe to touch."),
    LEVER(
            Leads.TO_A_SWITCH,
            "A breaker whose lever is down may still conduct: breakers fail closed, and labels can be wrong."),
    COLOUR(Leads.TO_A_WIRE, "A white wire can be hot. A bare one can be hot."),
    SEVERAL(Leads.TO_A_SWITCH, "One box can hold several circuits; one circuit can be fed by several breakers."),
    NEUTRAL(
            Leads.TO_A_WIRE,
            "A neutral that carries current can shock when it is opened: one that reads 0 V can rise to full voltage once its splice is"
                    + " parted. Test again after every splice."),
    MAIN(
            Leads.TO_A_SWITCH,
            "The main does not clear everything: the meter side stays live, and so can solar, a battery, a generator, a vehicle that"
                    + " feeds back, an uninterruptible supply."),
    BOTH_POLES(Leads.TO_A_SWITCH, "A water heater, an air conditioner or a range needs both of its poles opened."),
    SURPRISE(Leads.TO_A_SWITCH, "If a reading surprises you: stop, close up, call a licensed electrician."),
    QUALIFIED(
            Leads.TO_A_WIRE,
            "Behind a panel cover, at service conductors and at the meter only qualified people work."),
    COMPANY(Leads.TO_A_WIRE, "Have another person near who can open the main and call for help."),
    LAW(
            Leads.TO_THE_RECORD,
            "Permits, licences, tenancy and insurance count: the local code and the inspector decide.");

    private final Leads from;
    private final String words;

    Caution(Leads from, String words) {
        this.from = from;
        this.words = words;
    }

    /** {@return its words} */
    public String words() {
        return words;
    }

    /** {@return the cautions for an answer that can lead so far, those for less among them} */
    public static List<String> forWhat(Leads leads) {
        return Arrays.stream(values())
                .filter(c -> c.from.compareTo(leads) <= 0)
                .map(Caution::words)
                .toList();
    }
}
