package org.splicebook.rules;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.SourceSystem;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** What rules ask of a load point. */
final class Outlets {
    private static final Set<String> TWO_SLOTS = Set.of("two-slot", "two slot", "two slots");

    private Outlets() {}

    /** {@return whether it is a receptacle, a protective one's face among them} */
    static boolean isReceptacle(Facts f, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        return d != null && (d.family() == DeviceKind.Family.RECEPTACLE || d.family() == DeviceKind.Family.PROTECTIVE);
    }

    /** {@return whether it takes more than one leg: two of its terminals are made for hots} */
    static boolean isOfTwoLegs(Facts f, LoadPointWiring l) {
        return f.isOfTwoLegs(l);
    }

    static boolean hasTwoHots(Facts f, LoadPointWiring l) {
        return pairs(f, l).anyMatch(p -> isOfTwoHots(f, l, p));
    }

    private static Stream<DeviceKind.Pair> pairs(Facts f, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        return d == null
                ? Stream.empty()
                : d.device().kind().loadPoints().stream()
                        .filter(p -> p.name().isEmpty() || l.id().endsWith("." + p.name()))
                        .flatMap(p -> p.pairs().stream());
    }

    /** {@return whether a terminal, named with its device, is made for a hot} */
    static boolean isHot(Facts f, String terminal) {
        int dot = terminal.indexOf('.');
        Facts.InBox d = f.device(terminal.substring(0, Math.max(0, dot)));
        return d != null
                && d.device()
                        .kind()
                        .findTerminal(terminal.substring(dot + 1))
                        .filter(t -> t.role() == DeviceKind.Role.HOT)
                        .isPresent();
    }

    private static boolean isOfTwoHots(Facts f, LoadPointWiring l, DeviceKind.Pair p) {
        DeviceKind kind = Objects.requireNonNull(f.device(l.device())).device().kind();
        return Stream.of(p.a(), p.b())
                .allMatch(t -> kind.findTerminal(t)
                        .filter(x -> x.role() == DeviceKind.Role.HOT)
                        .isPresent());
    }

    /** {@return the highest nominal voltage across it by the system that the house is on, else as its kind says; 0 where neither does} */
    static double volts(Facts f, LoadPointWiring l) {
        return f.volts(l);
    }

    static double workedVolts(Facts f, LoadPointWiring l) {
        List<SourceSystem.Pole> poles = f.house().sources().values().stream()
                .findFirst()
                .map(s -> s.system().poles())
                .orElse(List.of());
        return pairs(f, l)
                .filter(p -> p.volts() > 0)
                .mapToDouble(p -> poles.isEmpty()
                        ? p.volts()
                        : isOfTwoHots(f, l, p) && poles.size() > 1
                                ? between(poles.get(0), poles.get(1))
                                : poles.get(0).volts())
                .max()
                .orElse(0);
    }

    private static double between(SourceSystem.Pole a, SourceSystem.Pole b) {
        double angle = Math.toRadians(a.degrees() - b.degrees());
        return Math.hypot(a.volts() - b.volts() * Math.cos(angle), b.volts() * Math.sin(angle));
    }

    /** {@return what hangs on it, as recorded} */
    static @Nullable String load(Facts f, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        return d == null ? null : d.device().load();
    }

    /** {@return whether what hangs on it, or its kind, is one of these words} */
    static boolean isOneOf(Facts f, LoadPointWiring l, List<String> words) {
        Facts.InBox d = f.device(l.device());
        return d != null
                && (words.contains(d.device().kind().name())
                        || words.contains(Objects.requireNonNullElse(d.device().load(), "")));
    }

    /** How sure a protection is. */
    enum Has {
        YES,
        PERHAPS,
        NO
    }

    /** {@return whether it has a protective function} */
    static Has has(Facts f, LoadPointWiring l, Protection function) {
        List<Sureness> sure = l.protections().stream()
                .filter(p -> p.function() == function)
                .map(p -> p.sureness())
                .toList();
        if (sure.contains(Sureness.MUST)) {
            return Has.YES;
        }
        boolean unfed = l.feeds().stream().noneMatch(x -> x.sureness() != Sureness.MAY);
        return sure.isEmpty() && !f.isOpen(l) && !unfed ? Has.NO : Has.PERHAPS;
    }

    /** {@return whether its ground terminal reaches a ground bar; no terminal reaches none} */
    static Has grounded(Facts f, LoadPointWiring l) {
        if (l.grounds().stream().anyMatch(g -> g.sureness() != Sureness.MAY)) {
            return Has.YES;
        }
        return l.grounds().isEmpty() && !f.isOpen(l) ? Has.NO : Has.PERHAPS;
    }

    /** {@return whether its label or the note on it says that it has two slots and no place for a ground} */
    static boolean hasTwoSlots(Facts.InBox d) {
        return says(d.device().label(), TWO_SLOTS) || says(d.device().about().note(), TWO_SLOTS);
    }

    /** {@return whether its words name one of these} */
    static boolean says(@Nullable String label, Set<String> words) {
        String plain = label == null ? "" : label.toLowerCase(Locale.ROOT);
        return words.stream().anyMatch(plain::contains);
    }
}
