package org.splicebook.store;

import java.util.List;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Keeps what stands beside houses: visits, to which lines are added, and what is personal, which can be taken away without a trace in any revision. */
public interface Papers {
    /** From the report of a fault to the closed visit. */
    String VISIT = "visit";

    /** Who lives there, as far as work has to know: personal. */
    String RESIDENT = "resident";

    /** {@return those of a kind and house, by name} */
    List<Paper> list(String kind, String house);

    /** {@return one, if it is kept} */
    Optional<Paper> find(String kind, String house, String name);

    /**
     * Adds a line.
     *
     * @param expected how many lines there are: 0 for a paper that must not be there yet
     * @return the paper with it, or a {@code STALE} problem
     */
    Result<Paper> append(String kind, String house, String name, String text, long expected, String who);

    /**
     * Keeps a paper in the place of whatever is kept under its name.
     *
     * @param isMarked whether {@link #isMarked} is to tell of it
     */
    void keep(Paper paper, boolean isMarked);

    /** Takes a paper away, with all that was ever written on it; {@return whether there was one} */
    boolean erase(String kind, String house, String name);

    /** {@return whether one of a kind is marked in a house: all that is told of it to those who may not read it} */
    boolean isMarked(String kind, String house);

    /** What a store that keeps none answers. */
    Papers NONE = new Papers() {
        @Override
        public List<Paper> list(String kind, String house) {
            return List.of();
        }

        @Override
        public Optional<Paper> find(String kind, String house, String name) {
            return Optional.empty();
        }

        @Override
        public Result<Paper> append(String kind, String house, String name, String text, long expected, String who) {
            return Result.failed(none());
        }

        @Override
        public void keep(Paper paper, boolean isMarked) {
            throw new ProblemException(none());
        }

        @Override
        public boolean erase(String kind, String house, String name) {
            return false;
        }

        @Override
        public boolean isMarked(String kind, String house) {
            return false;
        }

        private Problem none() {
            return Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "This store keeps nothing beside houses.",
                    "Open one that does.");
        }
    };
}
