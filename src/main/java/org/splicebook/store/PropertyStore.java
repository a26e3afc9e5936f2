package org.splicebook.store;

import java.util.List;
import java.util.Optional;
import org.splicebook.problem.Result;
import org.splicebook.record.Property;

/** Keeps properties, every revision of each, beside the houses that they join. A revision's {@code house} is the property's id here. */
public interface PropertyStore {
    /** {@return the newest revision of every property, by id} */
    List<Revision> list();

    /** {@return the newest revision of a property, if there is one} */
    Optional<StoredProperty> find(String id);

    /** {@return one revision of a property, if it is there} */
    Optional<StoredProperty> findRevision(String id, long revision);

    /** {@return every revision of a property, oldest first} */
    List<Revision> revisions(String id);

    /**
     * Stores a property as the next revision, with its graph.
     *
     * @param property the property
     * @param expected the revision that it was made from: 0 for one that must not exist yet
     * @param who who changes it
     * @param why why, in a few words
     * @return the new revision, or a {@code STALE} problem that names the newest one
     */
    Result<Revision> put(Property property, long expected, String who, String why);

    /**
     * Stores a property with its whole past as it was elsewhere.
     *
     * @param past its revisions, oldest first
     * @return its newest revision, or a {@code CONFLICT} where the property is in the store
     */
    Result<Revision> restore(List<StoredProperty> past);
}
