package org.splicebook.people;

import java.util.Set;

/** Tells which properties a house belongs to. */
@FunctionalInterface
public interface Estates {
    /** No house belongs to any. */
    Estates NONE = house -> Set.of();

    /** {@return the names of the properties that the house with that id belongs to} */
    Set<String> propertiesOf(String house);
}
