package org.splicebook.panelplan.schedule;

/** What is wanted of a schedule beside that it is lawful, the most wanted first. What comes later never costs what came before. */
public enum Goal {
    /** Tandems: none but those without which not all has room. */
    TANDEMS("tandems"),
    /** Wires that may have to be lengthened. */
    LENGTHENED("wires that may have to be lengthened"),
    /** What the legs differ by in demand, in steps of {@link ScheduleTask#STEP_VA}. */
    BALANCE("half amperes between the legs"),
    /** Groups of free spaces that lie under each other. */
    FREE_GROUPS("groups of free spaces"),
    /** Rows that wires move, in all. */
    MOVEMENT("rows moved");

    private final String word;

    Goal(String word) {
        this.word = word;
    }

    /** {@return what is counted, as said to people} */
    public String word() {
        return word;
    }
}
