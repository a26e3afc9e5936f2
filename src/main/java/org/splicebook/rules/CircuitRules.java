package org.splicebook.rules;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.PlaceKind;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** Circuits: which a dwelling needs, what may share one, ratings of receptacles and loads, loads of two legs, alarms. */
final class CircuitRules {
    private CircuitRules() {}

    static void add(Map<String, Rule> all) {
        all.put("small-appliance-circuits", CircuitRules::smallAppliance);
        all.put("laundry-circuit", (f, out) -> ofPlace(f, out, PlaceKind.LAUNDRY));
        all.put("bathroom-circuit", (f, out) -> ofPlace(f, out, PlaceKind.BATHROOM));
        all.put("garage-circuit", (f, out) -> ofPlace(f, out, PlaceKind.GARAGE));
        all.put("circuit-of-its-own", CircuitRules::dedicated);
        all.put("receptacle-rating", CircuitRules::receptacleRating);
    }

    private static List<LoadPointWiring> receptaclesIn(Facts f, PlaceKind kind) {
        return f.points().stream()
                .filter(l -> f.kindOf(l.place()) == kind && Outlets.isReceptacle(f, l) && !Outlets.isOfTwoLegs(f, l))
                .toList();
    }

    private static boolean isOf(Facts f, String breaker, double amperes) {
        Facts.InPanel b = f.breaker(breaker);
        return b != null && Objects.equals(b.amperes(), amperes);
    }

    /** Two or more circuits of 20 A have to serve the receptacles of a kitchen. */
    private static void smallAppliance(Facts f, Findings out) {
        List<LoadPointWiring> all = receptaclesIn(f, PlaceKind.KITCHEN).stream()
                .filter(l -> !Outlets.isOneOf(f, l, out.text().list("let-off")))
                .toList();
        if (all.isEmpty()) {
            return;
        }
        Set<String> shown = new TreeSet<>();
        boolean open = false;
        for (LoadPointWiring l : all) {
            Facts.breakersOf(l).stream().filter(b -> isOf(f, b, 20)).forEach(b -> poles(l, b, shown));
            open |= f.isOpen(l) || Facts.breakersOf(l).isEmpty();
            open |= Facts.breakersOf(l).stream()
                    .anyMatch(b -> Objects.requireNonNull(f.breaker(b)).amperes() == null);
        }
        if (shown.size() < 2) {
            out.found(
                            !open,
                            "kitchen",
                            shown.isEmpty()
                                    ? "No circuit of 20 A is shown to serve the kitchen's receptacles; two are asked for."
                                    : "One circuit of 20 A serves the kitchen's receptacles ("
                                            + String.join(", ", shown) + "); two are asked for.")
                    .outlets(all.stream().map(LoadPointWiring::id).toList())
                    .in(all.get(0).box())
                    .add();
        }
        for (String b : breakers(all)) {
            List<String> others = f.servedBy(b).stream()
                    .filter(l -> !out.text().has("may-serve", word(f, l))
                            && !Outlets.isOneOf(f, l, out.text().list("let-off")))
                    .map(LoadPointWiring::id)
                    .toList();
            if (isOf(f, b, 20) && !others.isEmpty()) {
                out.found(b, "A small-appliance circuit that also serves " + some(others) + ".")
                        .of(b)
                        .outlets(others)
                        .in(b.substring(0, b.indexOf('.')))
                        .add();
            }
        }
    }

    /** Each pole of a multiwire circuit counts as a circuit. */
    private static void poles(LoadPointWiring l, String breaker, Set<String> to) {
        l.feeds().stream()
                .filter(x -> x.breaker().equals(breaker) && x.sureness() != Sureness.MAY)
                .forEach(x -> to.add(x.pole()));
    }

    private static Set<String> breakers(List<LoadPointWiring> all) {
        Set<String> breakers = new TreeSet<>();
        all.forEach(l -> breakers.addAll(Facts.breakersOf(l)));
        return breakers;
    }

    private static String word(Facts f, LoadPointWiring l) {
        PlaceKind kind = f.kindOf(l.place());
        return kind == null ? "" : kind.word() + (Outlets.isReceptacle(f, l) ? "" : "-light");
    }

    /** {@return the first few names, and how many more there are} */
    static String some(List<String> names) {
        return names.size() <= 4
                ? String.join(", ", names)
                : String.join(", ", names.subList(0, 3)) + " and " + (names.size() - 3) + " more";
    }

    /** The receptacles of a laundry, of bathrooms, of a garage are served by a circuit of 20 A of their own. */
    private static void ofPlace(Facts f, Findings out, PlaceKind kind) {
        List<LoadPointWiring> all = receptaclesIn(f, kind);
        Set<String> told = new LinkedHashSet<>();
        for (LoadPointWiring l : all) {
            for (String b : Facts.breakersOf(l)) {
                Facts.InPanel breaker = f.breaker(b);
                if (breaker == null || !told.add(b)) {
                    continue;
                }
                List<String> others = f.servedBy(b).stream()
                        .filter(o -> f.kindOf(o.place()) != kind && !out.text().has("may-serve", word(f, o)))
                        .map(LoadPointWiring::id)
                        .toList();
                Double amperes = breaker.amperes();
                if (!others.isEmpty()) {
                    tell(
                                    out.found(
                                            b,
                                            "It serves receptacles of the " + kind.word() + " and also " + some(others)
                                                    + "."),
                                    all,
                                    b)
                            .outlets(others)
                            .add();
                } else if (amperes == null) {
                    tell(
                                    out.asked(
                                            b,
                                            "What is its rating? Receptacles of the " + kind.word() + " ask for 20 A."),
                                    all,
                                    b)
                            .add();
                } else if (amperes < 20) {
                    tell(
                                    out.found(
                                            b,
                                            "Receptacles of the " + kind.word() + " hang on " + Math.round(amperes)
                                                    + " A; 20 A are asked for."),
                                    all,
                                    b)
                            .add();
                }
            }
        }
    }

    private static Findings.Draft tell(Findings.Draft d, List<LoadPointWiring> all, String breaker) {
        all.stream().filter(l -> Facts.breakersOf(l).contains(breaker)).forEach(l -> {
            d.outlets(List.of(l.id()));
            d.in(l.box());
        });
        return d.of(breaker);
    }

    private static void dedicated(Facts f, Findings out) {
        for (LoadPointWiring l : f.points()) {
            if (!Outlets.isOneOf(f, l, out.text().list("loads"))) {
                continue;
            }
            for (String b : Facts.breakersOf(l)) {
                List<String> others = strangers(f, out.text(), l, f.servedBy(b));
                List<String> may = strangers(
                        f,
                        out.text(),
                        l,
                        f.points().stream()
                                .filter(o -> o.feeds().stream()
                                        .anyMatch(x -> x.breaker().equals(b)))
                                .toList());
                if (others.isEmpty() && !may.isEmpty()) {
                    out.possible(
                                    l.id(),
                                    "It asks for a circuit of its own and may share " + b + " with " + some(may) + ".")
                            .in(l.box())
                            .of(b)
                            .outlets(may)
                            .add();
                }
                if (!others.isEmpty()) {
                    out.found(
                                    l.id(),
                                    "It asks for a circuit of its own and shares " + b + " with " + some(others) + ".")
                            .in(l.box())
                            .of(b)
                            .outlets(others)
                            .add();
                }
            }
        }
    }

    private static List<String> strangers(Facts f, RuleText text, LoadPointWiring l, List<LoadPointWiring> on) {
        return on.stream()
                .filter(o -> !o.device().equals(l.device()))
                .filter(o -> !Outlets.isOneOf(f, o, text.list("may-share")))
                .map(LoadPointWiring::id)
                .toList();
    }

    private static void receptacleRating(Facts f, Findings out) {
        Set<String> unrated = new TreeSet<>();
        for (Facts.InPanel b : f.breakers()) {
            Double circuit = b.amperes();
            if (circuit == null) {
                continue;
            }
            List<LoadPointWiring> on = f.servedBy(b.name()).stream()
                    .filter(l -> Outlets.isReceptacle(f, l))
                    .toList();
            long receptacles = on.size();
            Set<String> told = new TreeSet<>();
            for (LoadPointWiring l : on) {
                Facts.InBox d = Objects.requireNonNull(f.device(l.device()));
                if (d.device().rating() == null) {
                    unrated.add(d.name());
                }
                if (d.device().rating() == null || !told.add(d.name())) {
                    continue;
                }
                double rating = d.device().rating().base();
                boolean right = receptacles == 1
                        ? rating >= circuit
                        : out.text().list("allowed").stream()
                                .filter(row -> row.startsWith(Math.round(circuit) + " "))
                                .allMatch(row -> List.of(row.split(" "))
                                        .subList(1, row.split(" ").length)
                                        .contains(String.valueOf(Math.round(rating))));
                if (!right) {
                    out.found(
                                    d.name(),
                                    "A receptacle of " + Math.round(rating) + " A on a circuit of "
                                            + Math.round(circuit) + " A" + (receptacles == 1 ? " of its own." : "."))
                            .in(d.box().name())
                            .of(b.name())
                            .outlets(List.of(l.id()))
                            .add();
                }
            }
        }
        if (!unrated.isEmpty()) {
            out.asked("house", "What ratings do the faces of " + some(List.copyOf(unrated)) + " show?")
                    .add();
        }
    }
}
