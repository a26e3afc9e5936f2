package org.splicebook.store;

/** Told how far long work has come. */
@FunctionalInterface
public interface Progress {
    /** Tells nobody. */
    Progress NONE = (done, total, what) -> {};

    /** So many of so many are done; {@code what} is what is worked on. */
    void at(long done, long total, String what);
}
