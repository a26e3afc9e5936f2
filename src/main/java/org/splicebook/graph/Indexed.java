package org.splicebook.graph;

/**
 * A property that nodes of a label are sought by.
 *
 * @param isUnique whether no two nodes of the label may share a value
 */
record Indexed(String label, String property, boolean isUnique) {
    static Indexed unique(String label, String property) {
        return new Indexed(label, property, true);
    }

    static Indexed plain(String label, String property) {
        return new Indexed(label, property, false);
    }

    /** {@return what the database calls the constraint or index} */
    String name() {
        return label + "_" + property;
    }

    /** {@return the statement that makes it where it is missing} */
    String cypher() {
        return isUnique
                ? "CREATE CONSTRAINT " + name() + " IF NOT EXISTS FOR (n:" + label + ") REQUIRE n." + property
                        + " IS UNIQUE"
                : "CREATE INDEX " + name() + " IF NOT EXISTS FOR (n:" + label + ") ON (n." + property + ")";
    }
}
