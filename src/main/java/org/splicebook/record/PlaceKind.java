package org.splicebook.record;

import java.util.Locale;

/** What a room or area is, as rules use it. */
public enum PlaceKind {
    KITCHEN,
    DINING,
    LIVING,
    FAMILY,
    BEDROOM,
    BATHROOM,
    HALL,
    STAIRS,
    CLOSET,
    LAUNDRY,
    UTILITY,
    OFFICE,
    SUNROOM,
    RECREATION,
    BASEMENT,
    CRAWL_SPACE,
    ATTIC,
    GARAGE,
    ACCESSORY_BUILDING,
    PORCH,
    OUTDOORS,
    WORKSHOP,
    COMMON,
    OTHER;

    /** {@return the word of the house file, for example {@code crawl-space}} */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
