package org.splicebook.render.drawing;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What can be drawn. */
public enum DrawingKind {
    CIRCUIT("a breaker, for example main.3", "a circuit, box by box from its breaker"),
    BOX("a box", "a box opened up: cables, wires, joints, devices"),
    WAY("a load point, for example bench-1.top", "the feed and the return of a load point, apart"),
    PANEL("a panel", "a panel as it hangs"),
    HOUSE("a breaker, protective device or joint; empty for none", "the house by room, with what one thing takes down"),
    REACH("a protective device or breaker", "where a protective device reaches");

    private final String subject;
    private final String shows;

    DrawingKind(String subject, String shows) {
        this.subject = subject;
        this.shows = shows;
    }

    /** {@return the word in commands and addresses} */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return what its subject is} */
    public String subject() {
        return subject;
    }

    /** {@return what it shows} */
    public String shows() {
        return shows;
    }

    /** {@return all words, for example {@code circuit, box}} */
    public static String words() {
        return Arrays.stream(values()).map(DrawingKind::word).collect(Collectors.joining(", "));
    }

    /** {@return the kind with that word, if there is one} */
    public static Optional<DrawingKind> find(String word) {
        return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
    }
}
