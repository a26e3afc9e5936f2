package org.splicebook.record;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Records of houses kept together: the units of buildings, their common parts, and what feeds what from one record to another. Each
 * part's wiring is a house of its own.
 *
 * @param id its id: lower-case letters, digits and hyphens
 * @param name what people call it
 * @param linksComplete whether no link between the parts exists beside those listed
 * @param buildings by name
 * @param types by name
 * @param parts units and common parts, by name
 * @param links what feeds what
 * @param meters by name
 * @param about age and note; its basis is the default of the links
 */
public record Property(
        String id,
        @Nullable String name,
        boolean linksComplete,
        Map<String, Building> buildings,
        Map<String, UnitType> types,
        Map<String, Part> parts,
        List<Link> links,
        Map<String, Meter> meters,
        Provenance about) {
    /** What a part is. */
    public enum Role {
        /** Somebody's own: a flat, a shop. */
        UNIT,
        /** Owned together: risers, house panels, stairs. */
        COMMON
    }

    /**
     * A building.
     *
     * @param name its key
     * @param title what people call it
     * @param about age and note
     */
    public record Building(String name, @Nullable String title, Provenance about) {}

    /**
     * A type of units that were built alike.
     *
     * @param name its key
     * @param title what people call it
     * @param house the id of the house that is its pattern
     * @param about age and note
     */
    public record UnitType(String name, @Nullable String title, String house, Provenance about) {}

    /**
     * A unit or a common part.
     *
     * @param name its key: what managers call it
     * @param title what else people call it
     * @param role whether it is somebody's own
     * @param house the id of the house that is its record
     * @param building its building, if said
     * @param type its type, if it has one
     * @param level the storey, as written
     * @param about age and note
     */
    public record Part(
            String name,
            @Nullable String title,
            Role role,
            String house,
            @Nullable String building,
            @Nullable String type,
            @Nullable String level,
            Provenance about) {
        /** {@return its key, and what else it is called} */
        public String said() {
            return title == null ? name : name + " (" + title + ")";
        }
    }

    /**
     * A load point of one part that feeds a source of another.
     *
     * @param from the part that feeds
     * @param point the load point in its record: a boundary
     * @param to the part that is fed
     * @param source the source in its record
     * @param about basis, age, note
     */
    public record Link(String from, String point, String to, String source, Provenance about) {
        /** {@return it in words} */
        public String said() {
            return from + ":" + point + " to " + to + ":" + source;
        }
    }

    /**
     * A meter: it counts all that a source gives.
     *
     * @param name its key
     * @param number the number on it
     * @param counts the part that pays for what it counts
     * @param in the part in whose record the source is
     * @param source that source
     * @param about basis, age, note
     */
    public record Meter(
            String name, @Nullable String number, String counts, String in, String source, Provenance about) {}

    public Property {
        buildings = Ordered.map(buildings);
        types = Ordered.map(types);
        parts = Ordered.map(parts);
        links = List.copyOf(links);
        meters = Ordered.map(meters);
    }

    /** {@return what people call it} */
    public String said() {
        return name == null ? id : name;
    }

    /** {@return how a link is known} */
    public Basis basis(Link link) {
        return link.about().basisOr(about.basisOr(Basis.ASSUMED));
    }

    /** {@return how a meter's place is known} */
    public Basis basis(Meter meter) {
        return meter.about().basisOr(about.basisOr(Basis.ASSUMED));
    }
}
