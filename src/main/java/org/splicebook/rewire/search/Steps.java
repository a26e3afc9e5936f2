package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.splicebook.record.Box;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rules.Finding;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** Which steps, each of one or several moves that belong together, may be worth trying about some load points, boxes and breakers. */
final class Steps {
    private final Wish wish;
    private final Map<String, DeviceKind> kinds;

    Steps(Wish wish, Map<String, DeviceKind> kinds) {
        this.wish = wish;
        this.kinds = kinds;
    }

    /** {@return what a wish is about: load points, devices, boxes, breakers} */
    Set<String> about(State before) {
        if (wish instanceof Wish.Cure c) {
            return about(
                    before,
                    before.findings().stream()
                            .filter(f -> f.key().equals(c.finding()))
                            .toList());
        }
        Set<String> all = new LinkedHashSet<>(wish.named());
        before.house().boxes().values().stream()
                .filter(b -> wish.named().stream().anyMatch(b.devices()::containsKey))
                .forEach(b -> all.add(b.name()));
        if (wish instanceof Wish.Onto o) {
            all.add(o.panel());
            before.wiring().loadPoints().stream()
                    .filter(l -> l.feeds().stream().anyMatch(f -> f.breaker().equals(o.breaker())))
                    .forEach(l -> all.add(l.id()));
        }
        return all;
    }

    /** {@return the load points, boxes and breakers that findings are about} */
    static Set<String> about(State state, List<Finding> findings) {
        Set<String> all = new LinkedHashSet<>();
        for (Finding f : findings) {
            all.addAll(f.outlets());
            all.addAll(f.boxes());
            all.add(f.subject());
            if (f.breaker() != null) {
                all.add(f.breaker());
            }
            state.house().boxes().values().stream()
                    .filter(b -> b.devices().containsKey(f.subject()))
                    .forEach(b -> all.add(b.name()));
        }
        return all;
    }

    /** {@return steps from a state of the house, those with new cable only where it is said} */
    List<List<Move>> from(State state, Set<String> about, boolean withCables) {
        Set<String> boxes = new LinkedHashSet<>(about);
        Set<String> breakers = new LinkedHashSet<>(about);
        List<LoadPointWiring> points = new ArrayList<>();
        for (LoadPointWiring l : state.wiring().loadPoints()) {
            if (about.contains(l.id()) || about.contains(l.device())) {
                points.add(l);
                boxes.add(l.box());
                l.feeds().forEach(f -> breakers.add(f.breaker()));
                l.feeds().forEach(f -> along(f.way(), boxes));
                l.returns().forEach(r -> along(r.way(), boxes));
            }
        }
        breakers.addAll(sharing(state, points));
        WireAtoms wires = new WireAtoms(state);
        PartAtoms parts = new PartAtoms(state, kinds);
        FaceAtoms faces = new FaceAtoms(state, kinds);
        List<List<Move>> all = new ArrayList<>(parts.breakers(breakers));
        if (wish instanceof Wish.Put p) {
            all.addAll(faces.put(p));
        }
        for (String name : boxes) {
            Box box = state.house().boxes().get(name);
            if (box != null) {
                all.addAll(parts.devices(box));
                all.addAll(faces.in(box));
            }
            if (box != null || state.house().panels().containsKey(name)) {
                all.addAll(wires.in(name));
            }
        }
        if (withCables) {
            all.addAll(new CableAtoms(state, kinds).of(wish, points));
        }
        return all;
    }

    /** The breakers whose returns share a neutral island with those of the load points. */
    private static Set<String> sharing(State state, List<LoadPointWiring> points) {
        Set<String> all = new LinkedHashSet<>();
        House house = state.house();
        state.wiring().islands().stream()
                .filter(i -> points.stream().anyMatch(p -> i.loadPoints().contains(p.id())))
                .flatMap(i -> i.poles().stream())
                .forEach(pole -> house.panels()
                        .values()
                        .forEach(p -> p.breakers().values().forEach(b -> {
                            if (b.spaces().stream().anyMatch(s -> pole.equals(p.name() + "." + s))) {
                                all.add(p.name() + "." + b.key());
                            }
                        })));
        return all;
    }

    private static void along(Way way, Set<String> boxes) {
        for (Way.Hop h : way.hops()) {
            if (h.thing().kind() == ThingKind.JOINT && !h.box().isEmpty()) {
                boxes.add(h.box());
            }
        }
    }
}
