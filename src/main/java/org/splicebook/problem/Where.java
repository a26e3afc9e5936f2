package org.splicebook.problem;

import org.jspecify.annotations.Nullable;

/**
 * Where a problem is: a file with line and column (both from 1; 0 when not known), and the field or path inside it.
 *
 * @param file the file as the person named it, or null where there is none
 * @param line line, from 1; 0 when not known
 * @param column column, from 1; 0 when not known
 * @param path the way of keys, for example {@code boxes.bench.joints[2]}; empty when not known
 */
public record Where(@Nullable String file, int line, int column, String path) {
    /** Nowhere in particular. */
    public static final Where NOWHERE = new Where(null, 0, 0, "");

    /** {@return a place that is a field only} */
    public static Where field(String path) {
        return new Where(null, 0, 0, path);
    }

    /** {@return {@code file:line:column}, or what of it is known} */
    public String said() {
        StringBuilder s = new StringBuilder(file == null ? "" : file);
        if (line > 0) {
            s.append(s.isEmpty() ? "line " : ":").append(line).append(':').append(column);
        }
        if (s.isEmpty()) {
            s.append(path);
        }
        return s.toString();
    }
}
