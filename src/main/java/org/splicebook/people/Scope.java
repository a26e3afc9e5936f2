package org.splicebook.people;

/**
 * What a role holds for.
 *
 * @param kind how much
 * @param name the house's id or the property's; empty for everything
 */
public record Scope(Kind kind, String name) {
    /** How much a role holds for. */
    public enum Kind {
        /** Every house, and the store itself. */
        EVERYTHING,
        /** The houses of one property. */
        PROPERTY,
        /** One house. */
        HOUSE
    }

    /** Everything there is. */
    public static final Scope EVERYTHING = new Scope(Kind.EVERYTHING, "");

    /** {@return one house} */
    public static Scope house(String id) {
        return new Scope(Kind.HOUSE, id);
    }

    /** {@return one property} */
    public static Scope property(String name) {
        return new Scope(Kind.PROPERTY, name);
    }

    /** {@return whether that house lies within it} */
    public boolean holdsFor(String house, Estates estates) {
        return switch (kind) {
            case EVERYTHING -> true;
            case PROPERTY -> !house.isEmpty() && estates.hold(name, house);
            case HOUSE -> !house.isEmpty() && name.equals(house);
        };
    }
}
