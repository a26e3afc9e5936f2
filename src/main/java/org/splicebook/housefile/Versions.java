package org.splicebook.housefile;

import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;

/** The version that a file says of itself: there is one so far. */
final class Versions {
    private Versions() {}

    /** Tells where a file is of another version than the one that is read. */
    static void check(Problems problems, Node.@Nullable Scalar said, String file, String version) {
        if (said == null || said.text().equals(version)) {
            return;
        }
        boolean isNewer = said.text().matches("[1-9][0-9]{0,8}");
        problems.error(
                ProblemKind.BAD_VALUE,
                said.at(),
                isNewer
                        ? "The " + file + " is of version " + said.said() + ", which a newer program wrote."
                        : "The version " + said.said() + " of the " + file + " is not known.",
                isNewer
                        ? "Read it with that program; this one reads version " + version + "."
                        : "This program reads version " + version + ".");
    }
}
