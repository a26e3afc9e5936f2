package org.splicebook.store;

import java.util.List;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Files that records speak of: photographs. Each is kept under the hash of what is in it, so that a name always means the same content, and the
 * same content is kept once. Nothing is ever changed. Methods throw {@link org.splicebook.problem.ProblemException} with {@code STORE_AWAY}
 * when the files cannot be reached.
 */
public interface Files {
    /**
     * Keeps a file; keeping it again changes nothing.
     *
     * @return its name: SHA-256 of the content in 64 hexadecimal digits
     */
    String keep(byte[] content);

    /** {@return the content of that name; empty if there is none, or if what is kept there is no longer what the name says} */
    Optional<byte[]> find(String name);

    /** {@return whether there is a file of that name, and what is in it is no longer what the name says} */
    default boolean isDamaged(String name) {
        return false;
    }

    /** {@return the names of all that is kept} */
    List<String> list();

    /** What holds none and takes none. */
    Files NONE = new Files() {
        @Override
        public String keep(byte[] content) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "No files are kept here.",
                    "Open the store with its data folder."));
        }

        @Override
        public Optional<byte[]> find(String name) {
            return Optional.empty();
        }

        @Override
        public List<String> list() {
            return List.of();
        }
    };
}
