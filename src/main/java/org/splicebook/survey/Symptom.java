package org.splicebook.survey;

import java.util.List;

/** One thing that people bring. Each says how well something foretold goes with it: a share above 0, for reports are wrong at times. */
public sealed interface Symptom {
    /** {@return how likely this is reported where that is so} */
    double chance(Seen seen);

    /**
     * {@return how likely this is reported where something is between sound and that: a connection that is loose may be so by more or less
     * than what was reckoned with}
     */
    default double chance(Seen seen, Seen sound) {
        return chance(seen);
    }

    /** {@return the load points, breakers and devices that it is about} */
    List<String> about();

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

        private boolean isBetween(Level a, Level b) {
            return Math.min(a.step, b.step) <= step && step <= Math.max(a.step, b.step);
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
        private static final double IN_BETWEEN = 0.4;
        /** What lives looks dead by a lamp that is out itself; what is dead hardly looks live. */
        private static final double LOOKED_DEAD = 0.01;

        private static final double LOOKED_LIVE = 0.005;

        @Override
        public double chance(Seen seen) {
            int apart = Math.abs(seen.at(point).level().step - level.step);
            return apart == 0 ? 0.9 : apart == 1 ? 0.08 : level == Level.DEAD ? LOOKED_DEAD : LOOKED_LIVE;
        }

        @Override
        public double chance(Seen seen, Seen sound) {
            boolean isBetween = level == Level.DIM
                    && level.isBetween(seen.at(point).level(), sound.at(point).level());
            return isBetween ? Math.max(chance(seen), IN_BETWEEN) : chance(seen);
        }

        @Override
        public List<String> about() {
            return List.of(point);
        }
    }

    /** A meter shows so many volts. What floats may show anything up to ghost voltages. */
    record Reads(String point, Between between, double volts) implements Symptom {
        @Override
        public double chance(Seen seen) {
            Seen.AtPoint at = seen.at(point);
            return between != Between.HOT_GROUND && Double.isNaN(at.volts(between)) && at.hotGround() > Seen.MOST_GHOST
                    ? Meter.onLostNeutral(at.hotGround(), volts)
                    : Meter.chance(at.volts(between), volts);
        }

        @Override
        public double chance(Seen seen, Seen sound) {
            return Meter.chance(seen.at(point).volts(between), sound.at(point).volts(between), volts);
        }

        @Override
        public List<String> about() {
            return List.of(point);
        }
    }

    /** A meter from the hot of one load point to that of another shows so many volts: none on one leg, 240 or 208 on two. */
    record Legs(String point, String other, double volts) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return Meter.chance(seen.betweenHots(point, other), volts);
        }

        @Override
        public List<String> about() {
            return List.of(point, other);
        }
    }

    /** A breaker or protective device trips, or was found tripped. */
    record Trips(String unit) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return seen.tripped().contains(unit) ? 0.95 : 0.02;
        }

        @Override
        public List<String> about() {
            return List.of(unit);
        }
    }

    /** A breaker or protective device holds. */
    record Holds(String unit) implements Symptom {
        @Override
        public double chance(Seen seen) {
            return seen.tripped().contains(unit) ? 0.05 : 0.98;
        }

        @Override
        public List<String> about() {
            return List.of(unit);
        }
    }
}
