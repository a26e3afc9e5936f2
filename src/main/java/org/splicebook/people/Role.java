package org.splicebook.people;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What somebody may do; each may all that those before it may. */
public enum Role {
    /** Reads records and asks. */
    READER,
    /** Records too: changes the record and appends what was observed. */
    RECORDER,
    /** Takes houses away too and, where it holds for everything, looks after people. */
    MANAGER;

    /** {@return the word for it} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return whether who has this role may do what that role may} */
    public boolean includes(Role least) {
        return compareTo(least) >= 0;
    }

    /** {@return the role that a word stands for} */
    public static Optional<Role> of(String word) {
        return Arrays.stream(values()).filter(r -> r.word().equals(word)).findFirst();
    }
}
