package org.splicebook.record;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One thing observed, with its date and conditions. Only what is named was looked at.
 *
 * @param id its id, unique in the house; a second one with the same id and content changes nothing
 * @param date the day, ISO 8601, as written
 * @param withOff breakers ({@code main.6}) and devices that were off meanwhile
 * @param levers lever positions meanwhile, by device
 * @param instrument what it was read with
 * @param pass the walk it belongs to
 * @param by who saw it
 * @param seen what was observed
 * @param note free words
 */
public record Sighting(
        String id,
        String date,
        List<String> withOff,
        Map<String, String> levers,
        @Nullable String instrument,
        @Nullable String pass,
        @Nullable String by,
        Seen seen,
        @Nullable String note) {
    public Sighting {
        withOff = List.copyOf(withOff);
        levers = Ordered.map(levers);
    }

    /** What was read at a point that may be live. */
    public enum Reading {
        LIT("lit"),
        NOT_LIT("not lit"),
        DIM("dim"),
        NOT_TRIED("not tried");

        private final String word;

        Reading(String word) {
            this.word = word;
        }

        /** {@return the words of the house file} */
        public String word() {
            return word;
        }
    }

    /** What was observed. Points are written as in joints or as load points. */
    public sealed interface Seen {
        /** {@return the points that were looked at, as written} */
        List<String> points();
    }

    /** A lamp, a tester or the load itself at a point: before, during, after. */
    public record Lit(
            String at,
            @Nullable Reading before,
            Reading read,
            @Nullable Reading after) implements Seen {
        @Override
        public List<String> points() {
            return List.of(at);
        }
    }

    /** Volts between two points. */
    public record Volts(Quantity volts, String from, String to) implements Seen {
        @Override
        public List<String> points() {
            return List.of(from, to);
        }
    }

    /** The pattern of a three-lamp plug-in tester: hot-neutral, hot-ground, neutral-ground. */
    public record Lamps(String at, boolean hotNeutral, boolean hotGround, boolean neutralGround) implements Seen {
        @Override
        public List<String> points() {
            return List.of(at);
        }
    }

    /** A trip button was pressed: what went out and what stayed. */
    public record Pressed(String device, List<String> wentOut, List<String> stayed) implements Seen {
        public Pressed {
            wentOut = List.copyOf(wentOut);
            stayed = List.copyOf(stayed);
        }

        @Override
        public List<String> points() {
            return java.util.stream.Stream.of(List.of(device), wentOut, stayed)
                    .flatMap(List::stream)
                    .toList();
        }
    }

    /** A clamp round a wire or a whole cable. */
    public record Clamp(Quantity amperes, String around) implements Seen {
        @Override
        public List<String> points() {
            return List.of(around);
        }
    }

    /** Continuity with the power off. */
    public record Continuity(String from, String to, boolean connected) implements Seen {
        @Override
        public List<String> points() {
            return List.of(from, to);
        }
    }

    /** A load switched on at a point, and a step seen at a breaker or leg. */
    public record LoadStep(
            String at, String seenAt, @Nullable Quantity amperes) implements Seen {
        @Override
        public List<String> points() {
            return List.of(at, seenAt);
        }
    }

    /** A cable or a tone seen at both points. */
    public record Traced(String from, String to, @Nullable String how) implements Seen {
        @Override
        public List<String> points() {
            return List.of(from, to);
        }
    }

    /** Words read on a label at a breaker, a plate or a cable. */
    public record LabelRead(String at, String text) implements Seen {
        @Override
        public List<String> points() {
            return List.of(at);
        }
    }
}
