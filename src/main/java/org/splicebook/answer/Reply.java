package org.splicebook.answer;

/** What a question returns: an answer about the wiring, with reasons, or a plain listing. */
public sealed interface Reply permits Answer, Listing {
    /** {@return what was asked, of which house, in which revision} */
    Heading heading();
}
