package org.splicebook.survey;

/** One thing that people bring. Each says how well something foretold goes with it: a share above 0, for reports are wrong at times. */
public sealed interface Symptom {
    /** {@return how likely this is reported where that is so} */
    double chance(Seen seen);

    /** How a lamp or what is plugged in does at a load point. */
    enum Level {
        DEAD(0),
        DIM(1),
        LIVE(2),
        BRIGHT(3);

        /** One step apart is easily mistaken, more is not. */
        private final int step;

        Level(int step) {
            this.step = step;
        }
    }

    /** Where a meter is put at one load point. */
    enum Between {
        HOT_NEUTRAL,
        HOT_GROUND,
        NEUTRAL_GROUND
    }

    /** A load point is dead, dim, as ever or too bright. */
    record Works(String point, Level level) implements Symptom {
        @Override
        public double chance(Seen seen) {
            int apart = Math.abs(seen.at(point).level().step - level.step);
            return apart == 0 ? 0.9 : apart == 1 ? 0.08 : 0.01;
        }
    }

    /** A meter shows so many volts. What floats may show anything up to ghost voltages. */
    record Reads(String point, Between between, double volts) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return near(seen.at(point).volts(between), volts);
        }
    }

    /** A meter from the hot of one load point to that of another shows so many volts: none on one leg, 240 or 208 on two. */
    record Legs(String point, String other, double volts) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return near(seen.betweenHots(point, other), volts);
        }
    }

    /** A breaker or protective device trips, or was found tripped. */
    record Trips(String unit) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return seen.tripped().contains(unit) ? 0.95 : 0.02;
        }
    }

    /** A breaker or protective device holds. */
    record Holds(String unit) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return seen.tripped().contains(unit) ? 0.05 : 0.98;
        }
    }

    private static double near(double told, double read) {
        if (Double.isNaN(told)) {
            return read <= Seen.MOST_GHOST ? 0.5 : 0.02;
        }
        double off = Math.abs(told - read);
        return off <= Seen.NOTICED_VOLTS + Seen.NOTICED_SHARE * told ? 0.9 : off <= 10 + 0.1 * told ? 0.2 : 0.01;
    }
}
