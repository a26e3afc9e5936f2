package org.splicebook.answer;

/** What a question returns: an answer about the wiring, with reasons, or a plain listing. */
public sealed interface Reply permits Answer, Listing {
    /** {@return what was asked, of which house, in which revision} */
    Heading heading();

    /** How many rows of replies, with their reasons, may be kept ready to be told again. */
    int ROWS_KEPT = 20_000;

    /** {@return how much of {@link #ROWS_KEPT} it takes, at least 1} */
    int weight();
}
