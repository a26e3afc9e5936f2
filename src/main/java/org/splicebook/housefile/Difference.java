package org.splicebook.housefile;

/**
 * One thing in which two records differ, in the words of the house file.
 *
 * @param part what it stands in: {@code box bench}, {@code panel main}, {@code cable K1}; {@code house} for what is said of the whole
 * @param what what of it: {@code device bench-1 kind}; empty for the part itself
 * @param was what stood there before; empty where nothing did
 * @param is what stands there now; empty where nothing does
 */
public record Difference(String part, String what, String was, String is) {
    /** {@return it in words} */
    public String said() {
        String of = what.isEmpty() ? part : part + ", " + what;
        if (was.isEmpty()) {
            return of + ": new" + (is.isBlank() ? "" : ": " + is);
        }
        return is.isEmpty() ? of + ": no longer there: " + was : of + ": was " + was + ", is " + is;
    }
}
