package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.PanelLegs;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.shutoff.Care;

/** The throws of a recorded house, what feeds the panel of each, and which of them must not go off with others. */
final class Throws {
    private static final double MORE_LIKELY_THAN_NOT = 0.5;

    private final Wiring wiring;
    private final House house;
    private final Wishes wishes;
    private final List<Throw> all = new ArrayList<>();
    private final Map<String, Integer> byBreaker = new HashMap<>();
    private final Map<String, Care> recorded = new HashMap<>();

    private Throws(Wiring wiring, Wishes wishes) {
        this.wiring = wiring;
        this.house = wiring.house();
        this.wishes = wishes;
    }

    static List<Throw> of(Wiring wiring, Wishes wishes) {
        Throws made = new Throws(wiring, wishes);
        made.recordedCares();
        made.house.panels().values().forEach(made::panel);
        made.feeders();
        return List.copyOf(made.all);
    }

    /** The gravest care of what each breaker feeds as recorded; where anything may feed anything, that tells nothing. */
    private void recordedCares() {
        Map<String, Device> devices = new HashMap<>();
        for (Box b : house.boxes().values()) {
            devices.putAll(b.devices());
        }
        for (LoadPointWiring l : wiring.loadPoints()) {
            Device d = devices.get(l.device());
            Care care = d == null ? null : Care.of(d);
            if (care != null) {
                for (Feed f : l.feeds()) {
                    if (f.sureness() == Sureness.MAY) {
                        continue;
                    }
                    recorded.merge(f.breaker(), care, (a, b) -> a.compareTo(b) <= 0 ? a : b);
                }
            }
        }
    }

    private void panel(Panel p) {
        Set<String> done = new LinkedHashSet<>();
        for (Breaker first : p.breakers().values()) {
            if (done.contains(first.key())) {
                continue;
            }
            Set<String> spaces = together(p, first);
            List<Breaker> moved = p.breakers().values().stream()
                    .filter(b -> b.spaces().stream().anyMatch(spaces::contains))
                    .toList();
            moved.forEach(b -> done.add(b.key()));
            List<String> names =
                    moved.stream().map(b -> p.name() + "." + b.key()).toList();
            int poles = moved.stream().mapToInt(b -> b.spaces().size()).sum();
            names.forEach(n -> byBreaker.put(n, all.size()));
            PanelLegs legs = PanelLegs.of(house.sources(), p);
            List<String> on = moved.stream()
                    .flatMap(b -> b.spaces().stream())
                    .map(legs::of)
                    .distinct()
                    .toList();
            Throw made = new Throw(
                    String.join(" + ", names),
                    names,
                    -1,
                    false,
                    poles,
                    on.size() == 1 ? on.get(0) : null,
                    Throw.Stay.FREE,
                    null);
            all.add(ruled(made, moved));
        }
    }

    /** The spaces that one hand moves with a breaker: its own, those tied to it or in one pull-out with it. */
    private static Set<String> together(Panel p, Breaker first) {
        Set<String> spaces = new LinkedHashSet<>(first.spaces());
        List<List<String>> groups = new ArrayList<>(p.ties());
        groups.addAll(p.pullOuts().values());
        p.breakers().values().forEach(b -> groups.add(b.spaces()));
        boolean more = true;
        while (more) {
            more = false;
            for (List<String> g : groups) {
                more |= g.stream().anyMatch(spaces::contains) && spaces.addAll(g);
            }
        }
        return spaces;
    }

    private Throw ruled(Throw t, List<Breaker> moved) {
        if (t.breakers().stream().anyMatch(wishes.stayOn()::contains)) {
            return t.staying(Throw.Stay.ON, "it was asked that it stays on");
        }
        if (t.breakers().stream().anyMatch(wishes.alone()::contains)) {
            return t.staying(Throw.Stay.ALONE, "it was asked that it goes off alone");
        }
        Care care = null;
        for (Breaker b : moved) {
            care = graver(care, Care.ofWords(b.label()));
        }
        for (String b : t.breakers()) {
            care = graver(care, recorded.get(b));
        }
        if (care == Care.LIFE) {
            return t.staying(Throw.Stay.ON, care.tell());
        }
        boolean isFree = t.breakers().stream().anyMatch(wishes.free()::contains);
        return !isFree && care != null && isApart(care) ? t.staying(Throw.Stay.ALONE, care.tell()) : t;
    }

    private static boolean isApart(Care care) {
        return care == Care.ALARM || care == Care.WATER || care == Care.COLD;
    }

    /** {@return the throws, those apart too on which the survey found an alarm, a pump or a cold store to hang more likely than not} */
    static List<Throw> found(List<Throw> throwing, Posterior known, List<Device> devices, Wishes wishes) {
        List<Throw> all = new ArrayList<>(throwing);
        for (int p = 0; p < devices.size(); p++) {
            Care care = Care.of(devices.get(p));
            Cause top = known.top(p).cause();
            if (care == null
                    || !isApart(care)
                    || !top.isOneThrow()
                    || known.top(p).share() < MORE_LIKELY_THAN_NOT) {
                continue;
            }
            Throw t = all.get(top.a());
            if (t.stay() == Throw.Stay.FREE && t.breakers().stream().noneMatch(wishes.free()::contains)) {
                String point = known.survey().points().get(p).id();
                all.set(
                        top.a(),
                        t.staying(Throw.Stay.ALONE, "by the passes so far " + point + " hangs on it. " + care.tell()));
            }
        }
        return all;
    }

    private static @Nullable Care graver(@Nullable Care a, @Nullable Care b) {
        return a == null || (b != null && b.compareTo(a) < 0) ? b : a;
    }

    private void feeders() {
        List<Panel> unknown = new ArrayList<>();
        for (Panel p : house.panels().values()) {
            if (p.supply().stream().anyMatch(house.sources()::containsKey)) {
                continue;
            }
            Integer feeder = feeder(p);
            for (int i = 0; i < all.size(); i++) {
                Throw t = all.get(i);
                if (t.panel().equals(p.name())) {
                    all.set(
                            i,
                            feeder == null
                                    ? new Throw(t.name(), t.breakers(), -1, true, t.poles(), null, t.stay(), t.why())
                                    : t.under(feeder));
                }
            }
            if (feeder == null) {
                unknown.add(p);
            }
        }
        // One may feed another: what holds for the last has come to the first after as many rounds as there are.
        unknown.forEach(round -> unknown.forEach(this::mayFeed));
    }

    /** What may feed a panel is held to the strictest rule in it. */
    private void mayFeed(Panel p) {
        Throw strictest = all.stream()
                .filter(t -> t.panel().equals(p.name()))
                .max(Comparator.comparing(Throw::stay))
                .orElse(null);
        if (strictest == null || strictest.stay() == Throw.Stay.FREE) {
            return;
        }
        for (int i = 0; i < all.size(); i++) {
            Throw t = all.get(i);
            if (t.poles() > 1 && !t.panel().equals(p.name()) && t.stay().compareTo(strictest.stay()) < 0) {
                all.set(
                        i,
                        t.staying(
                                strictest.stay(),
                                "it may feed " + p.name() + ", where " + strictest.name() + " is: " + strictest.why()));
            }
        }
    }

    private @Nullable Integer feeder(Panel p) {
        for (Panel other : house.panels().values()) {
            for (Joint j : other.joints()) {
                boolean holds = !other.equals(p)
                        && j.members().stream()
                                .anyMatch(r ->
                                        r instanceof Ref.WireEnd w && p.supply().contains(w.cable()));
                for (Ref r : holds ? j.members() : List.<Ref>of()) {
                    if (r instanceof Ref.PanelTerminal t) {
                        for (Breaker b : other.breakers().values()) {
                            if (b.spaces().contains(t.terminal())) {
                                return byBreaker.get(other.name() + "." + b.key());
                            }
                        }
                    }
                }
            }
        }
        return null;
    }
}
