package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.people.Estates;
import org.splicebook.people.Role;
import org.splicebook.people.Visitor;
import org.splicebook.render.Json;

/** Who may use which route: {@code access.yaml}, read. What it does not name is for the owner of the process alone. */
final class AccessTable {
    private static final String NOBODY = "nobody";
    private static final String KNOWN = "known";
    /** For who manages everything, even where the route names a house or a property. */
    private static final String EVERYTHING = "manager of everything";

    private final Map<String, String> least = new HashMap<>();

    AccessTable() {
        JsonNode table = Json.tree(PlainYaml.typed(Resources.text("access.yaml")));
        table.properties()
                .forEach(level -> level.getValue().forEach(route -> {
                    if (least.put(route.asText(), level.getKey()) != null) {
                        throw new IllegalStateException("twice in access.yaml: " + route.asText());
                    }
                    if (!Set.of(NOBODY, KNOWN, EVERYTHING).contains(level.getKey())) {
                        var unused = Role.of(level.getKey()).orElseThrow();
                    }
                }));
    }

    /** {@return the routes that the table names} */
    Set<String> named() {
        return Set.copyOf(least.keySet());
    }

    /** {@return how a route is named in the table} */
    static String name(Route route) {
        return route.method() + " " + route.path();
    }

    /** {@return whether a visitor may use a route}; of is the house or the property in its address, empty where there is none. */
    boolean allows(Route route, Visitor visitor, String of, Estates estates) {
        String level = least.getOrDefault(name(route), "");
        if (visitor.isOwner() || level.equals(NOBODY)) {
            return true;
        }
        if (level.equals(KNOWN)) {
            return visitor.isKnown();
        }
        if (level.equals(EVERYTHING)) {
            return visitor.mayEverywhere(Role.MANAGER);
        }
        return Role.of(level).map(r -> may(route, visitor, r, of, estates)).orElse(false);
    }

    /** {@return whether a visitor has a role for what a route is of} */
    static boolean may(Route route, Visitor visitor, Role least, String of, Estates estates) {
        if (route.isOfAHouse()) {
            return visitor.may(least, of, estates);
        }
        return route.isOfAProperty() ? visitor.mayProperty(least, of) : visitor.mayEverywhere(least);
    }
}
