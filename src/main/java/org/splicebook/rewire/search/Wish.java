package org.splicebook.rewire.search;

import java.util.List;
import java.util.Locale;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Protection;

/** What a change is wanted for. */
public sealed interface Wish {
    /**
     * A finding is to go.
     *
     * @param finding its key: rule, a slash, subject
     */
    record Cure(String finding) implements Wish {
        @Override
        public String said() {
            return "cure " + finding;
        }
    }

    /** Load points are to be protected, whatever state the house is in. */
    record Protect(Protection function, List<String> points) implements Wish {
        public Protect {
            points = List.copyOf(points);
        }

        @Override
        public String said() {
            return word(function) + " protection for " + String.join(", ", points);
        }
    }

    /**
     * Load points are to rely no more on the protective device that another one shares its face with: a freezer behind a receptacle
     * that may trip unseen.
     *
     * @param points the load points
     */
    record Free(List<String> points) implements Wish {
        public Free {
            points = List.copyOf(points);
        }

        @Override
        public String said() {
            return "have " + String.join(", ", points) + " rely on no ground-fault device further up";
        }
    }

    /** Load points are to be on breakers and neutrals that they do not share. */
    record Apart(List<String> points) implements Wish {
        public Apart {
            points = List.copyOf(points);
        }

        @Override
        public String said() {
            return "have " + String.join(" and ", points) + " on circuits apart";
        }
    }

    /**
     * A device of another kind is to come in a device's place, all its terminals served.
     *
     * @param device the device that is there
     * @param kind the kind that comes
     */
    record Put(String device, String kind) implements Wish {
        /** What is put in for a switch that is to have a neutral: what it draws for itself shows that it has one. */
        static final String SWITCH_WITH_NEUTRAL = "smart-switch";

        @Override
        public String said() {
            return "put a " + kind.replace('-', ' ') + " in the place of " + device;
        }
    }

    /**
     * What a breaker feeds is to be fed from another panel.
     *
     * @param breaker the breaker that feeds it now: {@code main.5}
     * @param panel the panel
     */
    record Onto(String breaker, String panel) implements Wish {
        @Override
        public String said() {
            return "have what " + breaker + " feeds fed from " + panel;
        }
    }

    /** {@return it in words} */
    String said();

    /** {@return the load points, devices, breakers or findings that it names} */
    default List<String> named() {
        if (this instanceof Cure c) {
            return List.of(c.finding());
        } else if (this instanceof Put p) {
            return List.of(p.device());
        } else if (this instanceof Onto o) {
            return List.of(o.breaker());
        } else if (this instanceof Protect p) {
            return p.points();
        } else if (this instanceof Free f) {
            return f.points();
        }
        return ((Apart) this).points();
    }

    private static String word(Protection p) {
        return p.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** {@return the wish written as {@code ground-fault=bath.top,bath.bottom}, or what is wrong with it} */
    static Result<Wish> parse(String text) {
        int eq = text.indexOf('=');
        String what = text.substring(0, Math.max(0, eq)).strip();
        List<String> rest = eq < 0 || eq == text.length() - 1
                ? List.of()
                : List.of(text.substring(eq + 1).strip().split("\\s*,\\s*"));
        if (!rest.isEmpty()) {
            for (Protection p : List.of(Protection.GROUND_FAULT, Protection.ARC_FAULT)) {
                if (what.equals(word(p))) {
                    return Result.ok(new Protect(p, rest));
                }
            }
            if (what.equals("free")) {
                return Result.ok(new Free(rest));
            }
            if (what.equals("apart") && rest.size() > 1) {
                return Result.ok(new Apart(rest));
            }
            if (what.equals("neutral") && rest.size() == 1) {
                return Result.ok(new Put(rest.get(0), Put.SWITCH_WITH_NEUTRAL));
            }
            if (what.equals("onto") && rest.size() == 1 && rest.get(0).indexOf(':') > 0) {
                String[] both = rest.get(0).split(":", 2);
                return Result.ok(new Onto(both[0], both[1]));
            }
            if (what.equals("put") && rest.size() == 1 && rest.get(0).indexOf(':') > 0) {
                String[] both = rest.get(0).split(":", 2);
                return Result.ok(new Put(both[0], both[1]));
            }
        }
        return new Result.Failed<>(List.of(Problem.error(
                ProblemKind.BAD_VALUE,
                Where.field("wish"),
                "Not a wish: " + text + ".",
                "Write ground-fault=LOADPOINT,... or arc-fault=LOADPOINT,... to protect; free=LOADPOINT,... to rely on no"
                        + " ground-fault device further up; apart=LOADPOINT,LOADPOINT for circuits apart; put=DEVICE:KIND for"
                        + " another device in its place; neutral=SWITCH to give a switch a neutral; onto=BREAKER:PANEL to have"
                        + " what a breaker feeds fed from another panel.")));
    }
}
