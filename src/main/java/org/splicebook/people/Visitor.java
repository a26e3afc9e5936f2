package org.splicebook.people;

import java.util.List;

/**
 * Who asks for something to be done.
 *
 * @param name what the record of changes calls them; empty for the owner of the process, who says it with each change
 * @param way how they came in
 * @param grants what they may do; the owner needs none
 * @param csrf what their forms have to carry along; empty where no cookie lets them in
 */
public record Visitor(String name, Way way, List<Grant> grants, String csrf) {
    /** How somebody came in. */
    public enum Way {
        /** Not at all. */
        NONE,
        /** As the owner of this process and its data folder. */
        OWNER,
        /** By name and password, kept in a cookie. */
        SESSION,
        /** By a link or a code, kept in a cookie. */
        INVITED,
        /** By a token of a program. */
        TOKEN
    }

    /** Nobody that is known. */
    public static final Visitor NOBODY = new Visitor("", Way.NONE, List.of(), "");

    /** Who owns the process. */
    public static final Visitor OWNER = new Visitor("", Way.OWNER, List.of(), "");

    public Visitor {
        grants = List.copyOf(grants);
    }

    /** {@return whether this is the owner of the process} */
    public boolean isOwner() {
        return way == Way.OWNER;
    }

    /** {@return whether it is known who this is} */
    public boolean isKnown() {
        return way != Way.NONE;
    }

    /** {@return whether they may do with that house what the role may} */
    public boolean may(Role least, String house, Estates estates) {
        return isOwner()
                || grants.stream()
                        .anyMatch(g -> g.role().includes(least) && g.scope().holdsFor(house, estates));
    }

    /** {@return whether they may do with that property what the role may} */
    public boolean mayProperty(Role least, String property) {
        return isOwner()
                || grants.stream()
                        .anyMatch(g -> g.role().includes(least)
                                && (g.scope().kind() == Scope.Kind.EVERYTHING
                                        || g.scope().equals(Scope.property(property))));
    }

    /** {@return whether they may do with everything what the role may} */
    public boolean mayEverywhere(Role least) {
        return isOwner()
                || grants.stream()
                        .anyMatch(g -> g.scope().kind() == Scope.Kind.EVERYTHING
                                && g.role().includes(least));
    }
}
