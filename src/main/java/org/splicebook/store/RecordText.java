package org.splicebook.store;

import org.splicebook.record.Draft;
import org.splicebook.record.House;

/** Turns a record into the text that is kept, and back: nothing is lost on the way. */
public interface RecordText extends PropertyText {
    /** {@return the record as text} */
    String write(House house);

    /**
     * {@return the record}
     *
     * @throws org.splicebook.problem.ProblemException when the text is not one
     */
    House read(String text);

    /** {@return a draft as text} */
    String write(Draft draft);

    /**
     * {@return the draft}
     *
     * @throws org.splicebook.problem.ProblemException when the text is not one
     */
    Draft readDraft(String text);
}
