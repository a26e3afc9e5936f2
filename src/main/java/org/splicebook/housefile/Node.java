package org.splicebook.housefile;

import java.util.List;
import org.splicebook.problem.Where;

/** A piece of YAML as it was written: every scalar is text, everything has its place. */
public sealed interface Node {
    /** {@return where it begins} */
    Where at();

    /** {@return what it is, for a message} */
    String said();

    /**
     * A scalar.
     *
     * @param text its text
     * @param plain whether it stood without quotes
     * @param at where
     */
    record Scalar(String text, boolean plain, Where at) implements Node {
        /** {@return whether it says nothing: left out, or null} */
        public boolean isNothing() {
            return plain && (text.isEmpty() || text.equals("null") || text.equals("~"));
        }

        @Override
        public String said() {
            return isNothing() ? "nothing" : Said.quoted(text);
        }
    }

    /** A list. */
    record Items(List<Node> items, Where at) implements Node {
        @Override
        public String said() {
            return "a list";
        }
    }

    /** A map, in the order in which it was written; no key twice. */
    record Entries(List<Entry> entries, Where at) implements Node {
        @Override
        public String said() {
            return "a map";
        }
    }

    /** A key and its value. */
    record Entry(Scalar key, Node value) {}
}
