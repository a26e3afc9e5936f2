package org.splicebook.store;

import org.splicebook.record.Property;

/** Turns a property into the text that is kept, and back: nothing is lost on the way. */
public interface PropertyText {
    /** {@return the property as text} */
    String writeProperty(Property property);

    /**
     * {@return the property}
     *
     * @throws org.splicebook.problem.ProblemException when the text is not one
     */
    Property readProperty(String text);
}
