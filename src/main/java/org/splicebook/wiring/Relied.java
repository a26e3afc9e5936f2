package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What one load point relies on, gathered thing by thing in their order. */
final class Relied {
    private final List<ReliesOn> hot = new ArrayList<>();
    private final List<ReliesOn> neutral = new ArrayList<>();
    private final List<ReliesOn> ground = new ArrayList<>();

    /** What may be relied on a thing for: made once, for all load points that do. */
    static final class On {
        private final Thing thing;
        private final List<ReliesOn> made = new ArrayList<>(2);

        On(Thing thing) {
            this.thing = thing;
        }

        private ReliesOn as(Conductor conductor, Sureness sureness) {
            for (ReliesOn known : made) {
                if (known.conductor() == conductor && known.sureness() == sureness) {
                    return known;
                }
            }
            ReliesOn one = new ReliesOn(conductor, thing, sureness);
            made.add(one);
            return one;
        }
    }

    /** Adds what the loss of a thing says of this load point. */
    void add(Effects.Effect e, On thing) {
        add(hot, Conductor.HOT, hot(e), thing);
        add(neutral, Conductor.NEUTRAL, neutral(e), thing);
        add(ground, Conductor.GROUND, ground(e), thing);
    }

    private static void add(List<ReliesOn> to, Conductor conductor, @Nullable Sureness sureness, On thing) {
        if (sureness != null) {
            to.add(thing.as(conductor, sureness));
        }
    }

    private static @Nullable Sureness hot(Effects.Effect e) {
        return switch (e.hot()) {
            case LOST, LOST_LIVE_THROUGH_LOAD -> Sureness.MUST;
            default -> e.fewer() ? Sureness.MAY : null;
        };
    }

    private static @Nullable Sureness neutral(Effects.Effect e) {
        return switch (e.neutral()) {
            case LOST, OVER_GROUND -> Sureness.MUST;
            case IMPAIRED -> Sureness.MAY;
            case KEPT -> null;
        };
    }

    private static @Nullable Sureness ground(Effects.Effect e) {
        return switch (e.ground()) {
            case LOST -> Sureness.MUST;
            case IMPAIRED -> Sureness.MAY;
            case KEPT -> null;
        };
    }

    /** {@return all of it, conductor by conductor} */
    List<ReliesOn> all() {
        List<ReliesOn> all = new ArrayList<>(hot.size() + neutral.size() + ground.size());
        all.addAll(hot);
        all.addAll(neutral);
        all.addAll(ground);
        return all;
    }
}
