package org.splicebook.answer;

/** Where an answer can lead a hand: it decides which cautions stand beside it. */
public enum Leads {
    /** Only to the record: a list of houses, of boxes not yet opened. */
    TO_THE_RECORD,
    /** To a breaker or a switch. */
    TO_A_SWITCH,
    /** To a wire, a terminal, a box without its cover. */
    TO_A_WIRE
}
