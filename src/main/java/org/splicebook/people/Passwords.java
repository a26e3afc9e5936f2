package org.splicebook.people;

import com.password4j.Argon2Function;
import com.password4j.types.Argon2;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Semaphore;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** Hashes passwords with Argon2id (RFC 9106) at 19 MiB, two passes, one lane. Each hash carries its own salt and measures. */
public final class Passwords {
    private static final int KIBIBYTES = 19_456;
    private static final int PASSES = 2;
    private static final int LANES = 1;
    private static final int HASH_BYTES = 32;
    private static final int SALT_BYTES = 16;
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final int LEAST = 12;
    private static final int MOST = 200;
    private static final int LEAST_DISTINCT = 5;

    /** So many at once, so that many who sign in together cannot use the memory up. */
    private static final Semaphore ROOM = new Semaphore(2);

    private static final Argon2Function ARGON =
            Argon2Function.getInstance(KIBIBYTES, PASSES, LANES, HASH_BYTES, Argon2.ID);

    /** What an unknown name is held against, so that it takes as long as a known one. */
    private static final String NOBODYS = hash(Secrets.random());

    private Passwords() {}

    /** {@return the hash of a password} */
    static String hash(String password) {
        byte[] salt = new byte[SALT_BYTES];
        RANDOM.nextBytes(salt);
        return inTurn(() ->
                ARGON.hash(password.getBytes(StandardCharsets.UTF_8), salt).getResult());
    }

    /** {@return whether a password is the one that was hashed; for an empty hash no, after as long} */
    static boolean isRight(String password, String hash) {
        if (password.length() > MOST) {
            return false;
        }
        return inTurn(() -> ARGON.check(password, hash.isEmpty() ? NOBODYS : hash)) && !hash.isEmpty();
    }

    /** {@return what is wrong with a password that somebody chose} */
    static List<Problem> wrong(String name, String password) {
        List<Problem> wrong = new ArrayList<>();
        if (password.length() < LEAST || password.length() > MOST) {
            wrong.add(problem("A password has from " + LEAST + " to " + MOST + " characters."));
        } else if (password.chars().distinct().count() < LEAST_DISTINCT) {
            wrong.add(problem("The password has too few different characters."));
        } else if (password.toLowerCase(Locale.ROOT).contains(name.toLowerCase(Locale.ROOT))) {
            wrong.add(problem("The password holds the user's name."));
        }
        return wrong;
    }

    private static Problem problem(String message) {
        return Problem.error(
                ProblemKind.BAD_VALUE,
                Where.field("password"),
                message,
                "Several words that belong together for nobody but you do well.");
    }

    private static <T> T inTurn(Supplier<T> work) {
        ROOM.acquireUninterruptibly();
        try {
            return work.get();
        } finally {
            ROOM.release();
        }
    }
}
