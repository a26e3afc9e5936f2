package org.splicebook.cli;

import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** What commands say about houses that are not there, or are there already. */
final class Houses {
    private Houses() {}

    static ProblemException notFound(String house) {
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.NOWHERE,
                "There is no house '" + house + "', or not in that revision.",
                "The command load stores a house."));
    }

    static Problem stored(String house) {
        return Problem.error(
                ProblemKind.CONFLICT,
                Where.NOWHERE,
                "House '" + house + "' is stored already.",
                "Say --replace to store it as the next revision.");
    }

    static Problem twice(String house) {
        return Problem.error(
                ProblemKind.DUPLICATE,
                Where.NOWHERE,
                "House '" + house + "' is in two of the files.",
                "Give each house an id of its own.");
    }
}
