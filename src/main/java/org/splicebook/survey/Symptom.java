package org.splicebook.survey;

/** One thing that people bring. Each says how well something foretold goes with it: a share above 0, for reports are wrong at times. */
public sealed interface Symptom {
    /** {@return how likely this is reported where that is so} */
    double chance(Seen seen);

    /** {@return the load point that it is about; empty where about none} */
    default String point() {
        return "";
    }

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
            double told = seen.at(point).volts(between);
            if (Double.isNaN(told)) {
                return volts <= Seen.MOST_GHOST ? 0.5 : 0.02;
            }
            double off = Math.abs(told - volts);
            return off <= Seen.NOTICED_VOLTS + Seen.NOTICED_SHARE * told ? 0.9 : off <= 10 + 0.1 * told ? 0.2 : 0.01;
        }
    }

    /** A breaker or protective device trips, or was found tripped. */
    record Trips(String unit) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return seen.tripped().contains(unit) ? 0.95 : 0.02;
        }
    }
}
