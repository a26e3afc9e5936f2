package org.splicebook.web.view;

import java.util.List;

/**
 * One thing to fill in on a form that writes.
 *
 * @param name its name
 * @param kind how it is filled in
 * @param label what it is called on the page
 * @param value what stands in it at first; for {@link Kind#SOME} and {@link Kind#TAP} the chosen values with commas between
 * @param meaning what it means, in a few words; may be empty
 * @param needed whether it has to be filled
 * @param choices what may be chosen; empty where it is typed
 * @param wrong what is wrong with it and what would be right; empty where nothing is
 */
public record Input(
        String name,
        Kind kind,
        String label,
        String value,
        String meaning,
        boolean needed,
        List<Choice> choices,
        String wrong) {
    private static final int MOST_SHOWN = 16;

    /** How it is filled in. */
    public enum Kind {
        /** A line. */
        TEXT,
        /** A line that nobody may read over a shoulder. */
        PASSWORD,
        /** Lines. */
        AREA,
        /** Carried along, not shown. */
        HIDDEN,
        /** One of a few, each large enough for a thumb. */
        ONE,
        /** Any of several. */
        SOME,
        /** Any of several, all of them in sight. */
        TAP,
        /** One of many. */
        LIST,
        /** A file of the person's. */
        FILE,
        /** A file of lines. */
        LINES,
        /** A picture: a telephone offers its camera. */
        PHOTO
    }

    /** What may be chosen: the value that is sent, the words for it, what is told beside them. */
    public record Choice(String value, String words, String note) {
        /** One with words alone. */
        public Choice(String value, String words) {
            this(value, words, "");
        }
    }

    public Input {
        choices = List.copyOf(choices);
    }

    /** {@return whether any number of them may be chosen} */
    public boolean isSome() {
        return kind == Kind.SOME || kind == Kind.TAP;
    }

    /** {@return whether there is so much to choose from that a phone would be filled with it} */
    public boolean isLong() {
        return choices.size() > MOST_SHOWN;
    }

    /** {@return whether something is told beside a choice} */
    public boolean isTold() {
        return choices.stream().anyMatch(c -> !c.note().isEmpty());
    }

    /** {@return whether this choice is chosen at first} */
    public boolean chosen(Choice c) {
        return isSome()
                ? List.of(value.split(",")).contains(c.value())
                : c.value().equals(value);
    }

    /** {@return something typed} */
    public static Input typed(Kind kind, String name, String label, String value, String meaning, boolean needed) {
        return new Input(name, kind, label, value, meaning, needed, List.of(), "");
    }

    /** {@return something carried along} */
    public static Input hidden(String name, String value) {
        return typed(Kind.HIDDEN, name, "", value, "", false);
    }

    /** {@return something chosen; it has to be, unless one choice is to say nothing} */
    public static Input chosen(
            Kind kind, String name, String label, String value, String meaning, List<Choice> choices) {
        boolean isAny = kind == Kind.SOME || kind == Kind.TAP;
        boolean mayBeEmpty = choices.stream().anyMatch(c -> c.value().isEmpty());
        return new Input(name, kind, label, value, meaning, !isAny && !mayBeEmpty, choices, "");
    }

    /** {@return the same, filled in} */
    public Input filled(String with) {
        return new Input(name, kind, label, with, meaning, needed, choices, wrong);
    }

    /** {@return the same, with what is wrong with it} */
    public Input wrong(String what) {
        return new Input(name, kind, label, value, meaning, needed, choices, what);
    }
}
