package org.splicebook.web.view;

import org.jspecify.annotations.Nullable;

/**
 * The house that a page is of.
 *
 * @param to its address
 * @param name what people call it
 * @param revision the revision shown
 * @param recorded what was recorded just before; null for nothing
 */
public record HouseBar(
        String to, String name, long revision, @Nullable Recorded recorded) {
    /**
     * What was recorded just before.
     *
     * @param revision its revision
     * @param newest the newest revision
     * @param what what the newest one is
     * @param page the page that is shown
     */
    public record Recorded(long revision, long newest, String what, String page) {
        /** {@return whether nobody recorded anything since} */
        public boolean isNewest() {
            return revision == newest;
        }
    }

    /** A page before which nothing was recorded. */
    public HouseBar(String to, String name, long revision) {
        this(to, name, revision, null);
    }
}
