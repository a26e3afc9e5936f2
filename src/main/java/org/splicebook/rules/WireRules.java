package org.splicebook.rules;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.CableKind;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.WireUse;

/** Wires: size, material, colour, where they end. */
final class WireRules {
    private static final Set<DeviceKind.Family> HARD_WIRED = Set.of(
            DeviceKind.Family.APPLIANCE,
            DeviceKind.Family.LUMINAIRE,
            DeviceKind.Family.TRANSFORMER,
            DeviceKind.Family.DISCONNECT,
            DeviceKind.Family.OTHER);

    private WireRules() {}

    static void add(Map<String, Rule> all) {
        all.put("wire-too-small", WireRules::tooSmall);
        all.put("ground-too-small", WireRules::groundTooSmall);
        all.put("aluminium-branch-wire", WireRules::aluminium);
        all.put("hot-in-white", WireRules::hotInWhite);
        all.put("ground-colour-not-ground", WireRules::groundColour);
        all.put("live-cable-end-not-found", WireRules::endNotFound);
        all.put("open-wiring", WireRules::openWiring);
        all.put("cord-as-wiring", WireRules::cord);
    }

    /** Every wire downstream of a breaker, through mixed sizes; loads with a rating of their own are let off, and said. */
    private static void tooSmall(Facts f, Findings out) {
        Map<String, Set<String>> unsized = new TreeMap<>();
        for (WireUse u : f.wiring().wires()) {
            Facts.InCable w = f.wire(u.wire());
            if (w == null || w.wire().metal()) {
                continue;
            }
            for (WireUse.Use use : u.uses()) {
                String name = use.pole() == null ? null : f.breakerOf(use.pole());
                Facts.InPanel b = name == null ? null : f.breaker(name);
                Double amperes = b == null ? null : b.amperes();
                if (b == null || amperes == null || isFeeder(f, w.cable())) {
                    continue;
                }
                Double limit = limit(f, out.text(), w.wire(), b);
                if (limit == null) {
                    if (use.sureness() != Sureness.MAY) {
                        unsized.computeIfAbsent(b.name(), k -> new TreeSet<>()).add(w.name());
                    }
                } else if (amperes > limit) {
                    tooSmall(f, out, w, b, use.sureness(), amperes, limit);
                }
            }
        }
        unsized.forEach((b, wires) -> out.asked(
                        b, "What size and material are " + String.join(", ", first(wires)) + " behind it?")
                .of(b)
                .in(b.substring(0, b.indexOf('.')))
                .add());
    }

    private static void tooSmall(
            Facts f, Findings out, Facts.InCable w, Facts.InPanel b, Sureness sureness, double amperes, double limit) {
        boolean motor = !f.servedBy(b.name()).isEmpty()
                && f.servedBy(b.name()).stream().allMatch(l -> isLetOff(f, out.text(), l));
        String said = w.name() + " is " + w.wire().size() + " and may carry " + Math.round(limit) + " A; " + b.name()
                + " is " + Math.round(amperes) + " A.";
        Findings.Draft d = motor
                ? out.asked(w.name(), said + " Does the plate of what it feeds allow it?")
                : out.found(sureness != Sureness.MAY && w.wire().size() != null, w.name(), said);
        w.cable().ends().forEach(e -> d.in(e.boxOrNull()));
        d.of(b.name())
                .on(w.cable().about().basisOr(f.house().basis()))
                .outlets(f.servedBy(b.name()).stream()
                        .filter(l -> l.feeds().stream().anyMatch(x -> passes(x.way(), w.name())))
                        .map(LoadPointWiring::id)
                        .toList())
                .add();
    }

    private static boolean passes(Way way, String wire) {
        return way.hops().stream().anyMatch(h -> h.thing().name().equals(wire));
    }

    /** Motors, air conditioners and heat pumps have a plate that may allow more (240.4(G), 430, 440). */
    private static boolean isLetOff(Facts f, RuleText text, LoadPointWiring l) {
        Facts.InBox d = f.device(l.device());
        return d != null
                && (text.has("let-off", d.device().kind().name())
                        || (d.device().load() != null
                                && text.has("let-off", d.device().load())));
    }

    private static boolean isFeeder(Facts f, Cable c) {
        return c.ends().stream().allMatch(e -> f.house().panels().containsKey(String.valueOf(e.boxOrNull())));
    }

    /** What a breaker before the wire may have at most; null where the size is not recorded or not in the table. */
    private static @Nullable Double limit(Facts f, RuleText text, Wire w, Facts.InPanel b) {
        if (w.size() == null) {
            return null;
        }
        boolean copper = w.material() == null || w.material() == Wire.Material.COPPER;
        Double inRing = copper && f.servedBy(b.name()).stream().anyMatch(l -> l.supply() == Supply.RING)
                ? row(text.list("in-a-ring"), w.size())
                : null;
        return inRing == null ? row(text.list(copper ? "copper" : "aluminium"), w.size()) : inRing;
    }

    /** The amperes of a size in a table of sizes, the amperes behind the last space of each row. */
    private static @Nullable Double row(List<String> table, String size) {
        return table.stream()
                .filter(r -> r.startsWith(size + " ") && r.lastIndexOf(' ') == size.length())
                .map(r -> Double.valueOf(r.substring(size.length() + 1)))
                .findFirst()
                .orElse(null);
    }

    private static List<String> first(Set<String> names) {
        return names.stream().limit(6).toList();
    }

    private static void groundTooSmall(Facts f, Findings out) {
        Set<String> unsized = new TreeSet<>();
        for (Cable c : f.house().cables().values()) {
            @Nullable Wire ground = null;
            @Nullable Wire hot = null;
            for (Facts.InCable w : f.wiresOf(c)) {
                boolean isGround =
                        f.isShown(w.name(), Conductor.GROUND) && !w.wire().metal();
                ground = isGround ? w.wire() : ground;
                hot = f.isShown(w.name(), Conductor.HOT) ? w.wire() : hot;
            }
            if (ground != null && ground.size() == null && hot != null && hot.size() != null) {
                unsized.add(c.name());
            }
            if (ground == null || hot == null || ground.size() == null || hot.size() == null) {
                continue;
            }
            Integer g = gauge(ground.size());
            Integer h = gauge(hot.size());
            if (g != null && h != null && g > h && h >= 10) {
                Findings.Draft d = out.found(
                                c.name(),
                                "Its ground is " + ground.size() + " beside hots of " + hot.size()
                                        + ": as made in the 1960s, smaller than asked today.")
                        .on(c.about().basisOr(f.house().basis()));
                c.ends().forEach(e -> d.in(e.boxOrNull()));
                d.add();
            }
        }
        if (!unsized.isEmpty()) {
            out.asked("house", "What size are the grounds of " + CircuitRules.some(List.copyOf(unsized)) + "?")
                    .add();
        }
    }

    private static @Nullable Integer gauge(String size) {
        boolean isGauge = !size.isEmpty() && size.length() <= 2 && size.chars().allMatch(c -> c >= '0' && c <= '9');
        return isGauge ? Integer.valueOf(size) : null;
    }

    private static void aluminium(Facts f, Findings out) {
        for (Cable c : f.house().cables().values()) {
            boolean small = c.wires().stream()
                    .anyMatch(w -> w.material() == Wire.Material.ALUMINIUM
                            && out.text().has("sizes", String.valueOf(w.size())));
            boolean unknown = c.wires().stream()
                            .anyMatch(w -> w.material() == null && out.text().has("sizes", String.valueOf(w.size())))
                    && isOfThoseYears(f, out.text(), c);
            if (small || unknown) {
                Findings.Draft d = small
                        ? out.found(c.name(), "Aluminium branch wire: its connections loosen and burn.")
                        : out.asked(c.name(), "Of the years when aluminium was used: is it copper?");
                c.ends().forEach(e -> d.in(e.boxOrNull()));
                d.on(c.about().basisOr(f.house().basis())).add();
            }
        }
    }

    private static boolean isOfThoseYears(Facts f, RuleText text, Cable c) {
        String since = c.about().since();
        Integer built = f.house().built();
        int year = since != null && since.matches("[0-9]{4}.*")
                ? Integer.parseInt(since.substring(0, 4))
                : built == null ? 0 : built;
        return year >= text.number("from-year") && year <= text.number("to-year");
    }

    private static void hotInWhite(Facts f, Findings out) {
        for (WireUse u : f.wiring().wires()) {
            Facts.InCable w = f.wire(u.wire());
            if (w == null
                    || !out.text().has("colours", w.wire().colour())
                    || w.cable().kind() == CableKind.OPEN_WIRE) {
                continue;
            }
            boolean hot =
                    u.uses().stream().anyMatch(x -> x.conductor() == Conductor.HOT && x.sureness() != Sureness.MAY);
            boolean neutral = f.isShown(w.name(), Conductor.NEUTRAL);
            if (hot && !neutral) {
                Findings.Draft d = out.asked(
                                w.name(), "It is " + w.wire().colour() + " and hot. Is it re-marked at both ends?")
                        .on(w.cable().about().basisOr(f.house().basis()));
                w.cable().ends().forEach(e -> d.in(e.boxOrNull()));
                u.uses().stream()
                        .map(x -> x.pole())
                        .filter(p -> p != null)
                        .findFirst()
                        .ifPresent(p -> d.of(f.breakerOf(p)));
                d.add();
            }
        }
    }

    /** A bare or green wire that carries current in order of business. */
    private static void groundColour(Facts f, Findings out) {
        for (WireUse u : f.wiring().wires()) {
            Facts.InCable w = f.wire(u.wire());
            if (w == null
                    || w.wire().metal()
                    || !out.text().has("colours", w.wire().colour())) {
                continue;
            }
            boolean hot = f.isShown(w.name(), Conductor.HOT);
            boolean neutral = f.isShown(w.name(), Conductor.NEUTRAL);
            // One that is a ground as well carries a neutral's current by a tie elsewhere, which is found there.
            if (hot || (neutral && !f.isShown(w.name(), Conductor.GROUND))) {
                Findings.Draft d = out.found(
                                w.name(),
                                "It is " + w.wire().colour() + " and " + (hot ? "hot" : "carries a neutral") + ".")
                        .on(w.cable().about().basisOr(f.house().basis()));
                w.cable().ends().forEach(e -> d.in(e.boxOrNull()));
                d.add();
            }
        }
    }

    private static void endNotFound(Facts f, Findings out) {
        for (Cable c : f.house().cables().values()) {
            boolean lost = c.ends().stream().anyMatch(e -> !(e instanceof CableEnd.At));
            boolean live = f.wiresOf(c).stream().anyMatch(w -> f.isShown(w.name(), Conductor.HOT));
            boolean may = c.wires().stream().anyMatch(w -> {
                WireUse u = f.use(c.name() + "." + w.name());
                return u != null && u.uses().stream().anyMatch(x -> x.conductor() == Conductor.HOT);
            });
            if (lost && (live || may)) {
                Findings.Draft d = out.found(
                                live,
                                c.name(),
                                live
                                        ? "It is live and nobody knows where its other end is."
                                        : "It may be live and nobody knows where its other end is.")
                        .on(c.about().basisOr(f.house().basis()));
                c.ends().forEach(e -> d.in(e.boxOrNull()));
                d.add();
            }
        }
    }

    private static void openWiring(Facts f, Findings out) {
        List<Cable> open = f.house().cables().values().stream()
                .filter(c -> c.kind() == CableKind.OPEN_WIRE)
                .toList();
        if (!open.isEmpty()) {
            Findings.Draft d = out.found(
                    "open wiring",
                    open.size() + " wires on knobs or in tubes. Has anything been insulated over or tapped onto?");
            open.forEach(c -> c.ends().forEach(e -> d.in(e.boxOrNull())));
            d.add();
        }
    }

    private static void cord(Facts f, Findings out) {
        f.house().cables().values().stream()
                .filter(c -> c.kind() == CableKind.CORD && c.ends().stream().anyMatch(e -> e.boxOrNull() == null))
                .forEach(c -> {
                    Findings.Draft d =
                            out.asked(c.name(), "A flexible cord. Does its other end go to a plug, or into a box?");
                    c.ends().forEach(e -> d.in(e.boxOrNull()));
                    d.add();
                });
        f.house().cables().values().stream()
                .filter(c -> c.kind() == CableKind.CORD
                        && c.ends().stream().noneMatch(e -> isDeviceOnly(f, e))
                        && c.ends().stream().allMatch(e -> e.boxOrNull() != null))
                .forEach(c -> {
                    Findings.Draft d = out.found(c.name(), "A flexible cord runs between two boxes as fixed wiring.")
                            .on(c.about().basisOr(f.house().basis()));
                    c.ends().forEach(e -> d.in(e.boxOrNull()));
                    d.add();
                });
    }

    /** An appliance's own end: a box with one hard-wired device and no other cable. */
    private static boolean isDeviceOnly(Facts f, CableEnd e) {
        Box b = f.house().boxes().get(String.valueOf(e.boxOrNull()));
        return b != null
                && b.devices().size() == 1
                && b.devices().values().stream()
                        .allMatch(d -> HARD_WIRED.contains(d.kind().family()))
                && f.cablesAt(b.name()).size() == 1;
    }
}
