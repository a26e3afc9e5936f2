package org.splicebook.people;

/** Tells which houses belong to a property. */
@FunctionalInterface
public interface Estates {
    /** No house belongs to any. */
    Estates NONE = (property, house) -> false;

    /** {@return whether the house with that id belongs to that property} */
    boolean hold(String property, String house);
}
