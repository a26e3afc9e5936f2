package org.splicebook.wiring;

/**
 * Something that a way passes or that can be lost. The name is unique for its kind within a house.
 *
 * @param kind what it is
 * @param name its name, as {@link ThingKind} says
 */
public record Thing(ThingKind kind, String name) implements Comparable<Thing> {
    @Override
    public int compareTo(Thing o) {
        int c = kind.compareTo(o.kind);
        return c != 0 ? c : name.compareTo(o.name);
    }
}
