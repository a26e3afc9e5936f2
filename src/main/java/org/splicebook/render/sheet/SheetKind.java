package org.splicebook.render.sheet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What can be printed. */
public enum SheetKind {
    DIRECTORY("a panel; empty for all", "the directory for a panel's door"),
    STRIPS("a panel; empty for all", "labels to cut out, one for each space of a panel"),
    SHUT_OFF("a box or a panel", "what must be off, locked and tested before a box is opened, with boxes to tick"),
    CARD("a box; empty for all", "a card for each box: its drawing, its wires, and a tag with a code"),
    LABELS("nothing", "what a code asks to be marked on protected and on ungrounded receptacles, to cut out"),
    READINGS("nothing", "a sheet to write readings on, point by point"),
    EMERGENCY("nothing", "which throws make the house as dark as it can be made"),
    RECORD("who hands it over; may be empty", "the whole record of a house");

    private final String subject;
    private final String shows;

    SheetKind(String subject, String shows) {
        this.subject = subject;
        this.shows = shows;
    }

    /** {@return the word in commands and addresses} */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** {@return what it is of} */
    public String subject() {
        return subject;
    }

    /** {@return what it shows} */
    public String shows() {
        return shows;
    }

    /** {@return all words, for example {@code directory, shut-off}} */
    public static String words() {
        return Arrays.stream(values()).map(SheetKind::word).collect(Collectors.joining(", "));
    }

    /** {@return the kind of that word, if there is one} */
    public static Optional<SheetKind> find(String word) {
        return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
    }
}
