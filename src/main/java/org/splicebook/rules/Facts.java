package org.splicebook.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** A house and its wiring, indexed for rules. */
final class Facts {
    /** A device and the box it is in. */
    record InBox(Device device, Box box) {
        DeviceKind.Family family() {
            return device.kind().family();
        }

        String name() {
            return device.name();
        }
    }

    /** A breaker or fuse and the panel it is in; its name with the panel. */
    record InPanel(String name, Breaker breaker, Panel panel) {
        @Nullable
        Double amperes() {
            return breaker.rating() == null ? null : breaker.rating().base();
        }
    }

    /** A wire of a cable; its name with the cable. */
    record InCable(String name, Wire wire, Cable cable) {}

    private final Remembered remembered;
    private final Wiring wiring;
    private final House house;
    private final Map<String, InBox> devices = new LinkedHashMap<>();
    private final Map<String, InPanel> breakers = new LinkedHashMap<>();
    private final Map<String, String> breakerOfPole = new LinkedHashMap<>();
    private final Map<String, LoadPointWiring> points = new LinkedHashMap<>();
    private final Map<String, List<LoadPointWiring>> byDevice = new LinkedHashMap<>();
    private final Map<String, List<LoadPointWiring>> served = new LinkedHashMap<>();
    private final Map<String, WireUse> uses = new LinkedHashMap<>();
    private final Map<String, InCable> wires = new LinkedHashMap<>();
    private final Map<String, Map<String, InCable>> byCable = new HashMap<>();
    private final IdentityHashMap<Joint, List<InCable>> inJoint = new IdentityHashMap<>();
    private final Map<String, Double> volts = new HashMap<>();
    private final Map<String, Boolean> twoLegs = new HashMap<>();
    private final Map<String, List<Cable>> cablesAt = new LinkedHashMap<>();
    private final Set<String> inOpenRegions = new LinkedHashSet<>();

    private Facts(Wiring wiring, Remembered remembered) {
        this.remembered = remembered;
        this.wiring = wiring;
        this.house = wiring.house();
        for (Box b : house.boxes().values()) {
            b.devices().values().forEach(d -> devices.put(d.name(), new InBox(d, b)));
        }
        for (Panel p : house.panels().values()) {
            for (Breaker b : p.breakers().values()) {
                String name = p.name() + "." + b.key();
                breakers.put(name, new InPanel(name, b, p));
                b.spaces().forEach(s -> breakerOfPole.put(p.name() + "." + s, name));
            }
        }
        for (LoadPointWiring l : wiring.loadPoints()) {
            points.put(l.id(), l);
            byDevice.computeIfAbsent(l.device(), k -> new ArrayList<>()).add(l);
            l.feeds().stream()
                    .filter(Facts::isShown)
                    .map(Feed::breaker)
                    .distinct()
                    .forEach(b ->
                            served.computeIfAbsent(b, k -> new ArrayList<>()).add(l));
        }
        wiring.wires().forEach(u -> uses.put(u.wire(), u));
        for (Cable c : house.cables().values()) {
            Map<String, InCable> its = new LinkedHashMap<>();
            c.wires().forEach(w -> {
                String name = c.name() + "." + w.name();
                InCable in = new InCable(name, w, c);
                wires.put(name, in);
                its.put(w.name(), in);
            });
            byCable.put(c.name(), its);
            Stream.concat(c.ends().stream().flatMap(e -> boxesOf(e).stream()), c.through().stream())
                    .distinct()
                    .forEach(b ->
                            cablesAt.computeIfAbsent(b, k -> new ArrayList<>()).add(c));
        }
        wiring.openRegions().forEach(o -> inOpenRegions.addAll(o.loadPoints()));
    }

    static Facts of(Wiring wiring, Remembered remembered) {
        return new Facts(wiring, remembered);
    }

    /** The boxes that an end may be in. */
    private static List<String> boxesOf(CableEnd end) {
        return end instanceof CableEnd.At at
                ? List.of(at.box())
                : end instanceof CableEnd.OneOf some ? some.boxes() : List.of();
    }

    private static boolean isShown(Feed f) {
        return f.sureness() != Sureness.MAY;
    }

    House house() {
        return house;
    }

    Wiring wiring() {
        return wiring;
    }

    Remembered remembered() {
        return remembered;
    }

    Collection<InBox> devices() {
        return devices.values();
    }

    Stream<InBox> devices(DeviceKind.Family family) {
        return devices.values().stream().filter(d -> d.family() == family);
    }

    @Nullable
    InBox device(String name) {
        return devices.get(name);
    }

    Collection<InPanel> breakers() {
        return breakers.values();
    }

    @Nullable
    InPanel breaker(String name) {
        return breakers.get(name);
    }

    /** {@return the breaker that a pole belongs to: {@code main.2+4} for {@code main.2}} */
    @Nullable
    String breakerOf(String pole) {
        return breakerOfPole.get(pole);
    }

    @Nullable
    LoadPointWiring point(String id) {
        return points.get(id);
    }

    Collection<LoadPointWiring> points() {
        return points.values();
    }

    /** {@return the load points of a device} */
    List<LoadPointWiring> pointsOf(String device) {
        return byDevice.getOrDefault(device, List.of());
    }

    /** {@return the load points that the record shows to be fed by a breaker} */
    List<LoadPointWiring> servedBy(String breaker) {
        return served.getOrDefault(breaker, List.of());
    }

    /** {@return the breakers that the record shows to feed a load point} */
    static Set<String> breakersOf(LoadPointWiring l) {
        Set<String> all = new TreeSet<>();
        l.feeds().stream().filter(Facts::isShown).forEach(f -> all.add(f.breaker()));
        return all;
    }

    /** {@return whether something not recorded may join the wiring of a load point} */
    boolean isOpen(LoadPointWiring l) {
        return inOpenRegions.contains(l.id());
    }

    @Nullable
    WireUse use(String wire) {
        return uses.get(wire);
    }

    /** {@return whether the record shows a wire to be a conductor of that kind} */
    boolean isShown(String wire, Conductor conductor) {
        WireUse u = uses.get(wire);
        if (u != null) {
            for (WireUse.Use x : u.uses()) {
                if (x.conductor() == conductor && x.sureness() != Sureness.MAY) {
                    return true;
                }
            }
        }
        return false;
    }

    /** {@return whether nothing shows what a wire is} */
    boolean isUnknown(String wire) {
        WireUse u = uses.get(wire);
        return u == null || u.uses().stream().allMatch(x -> x.sureness() == Sureness.MAY);
    }

    Collection<InCable> wires() {
        return wires.values();
    }

    @Nullable
    InCable wire(String name) {
        return wires.get(name);
    }

    /** {@return the wire that a reference names an end of, or null} */
    @Nullable
    InCable wire(Ref ref) {
        return ref instanceof Ref.WireEnd e
                ? byCable.getOrDefault(e.cable(), Map.of()).get(e.wire())
                : null;
    }

    /** {@return the wires of a cable} */
    Collection<InCable> wiresOf(Cable c) {
        return byCable.getOrDefault(c.name(), Map.of()).values();
    }

    /** {@return the wires that have an end in a joint, one that has both twice} */
    List<InCable> wiresIn(Joint joint) {
        return inJoint.computeIfAbsent(
                joint,
                j -> j.members().stream()
                        .flatMap(r -> Stream.ofNullable(wire(r)))
                        .toList());
    }

    /** {@return what {@link Outlets#volts} says} */
    double volts(LoadPointWiring l) {
        return volts.computeIfAbsent(l.id(), k -> Outlets.workedVolts(this, l));
    }

    /** {@return what {@link Outlets#isOfTwoLegs} says} */
    boolean isOfTwoLegs(LoadPointWiring l) {
        return twoLegs.computeIfAbsent(l.id(), k -> Outlets.hasTwoHots(this, l));
    }

    /** {@return the cables that enter a box or panel, those that may do so and those that pass it uncut among them} */
    List<Cable> cablesAt(String box) {
        return cablesAt.getOrDefault(box, List.of());
    }

    /** {@return the place of a box or panel, by name} */
    @Nullable
    String placeOf(String box) {
        Box b = house.boxes().get(box);
        Panel p = house.panels().get(box);
        return b != null ? b.place() : p != null ? p.place() : null;
    }

    /** {@return what kind of place a place is} */
    @Nullable
    PlaceKind kindOf(@Nullable String place) {
        Place p = place == null ? null : house.places().get(place);
        return p == null ? null : p.kind();
    }

    @Nullable
    Place place(@Nullable String name) {
        return name == null ? null : house.places().get(name);
    }

    Basis basisOf(String box) {
        Box b = house.boxes().get(box);
        Panel p = house.panels().get(box);
        return (b != null ? b.about() : p != null ? p.about() : house.about()).basisOr(house.basis());
    }

    /** {@return the joints of a box in which something is} */
    static List<Joint> joints(Box box, Predicate<Ref> with) {
        return box.joints().stream()
                .filter(j -> j.members().stream().anyMatch(with))
                .toList();
    }

    /** {@return whether a reference is that terminal of that device} */
    static boolean isTerminal(Ref ref, String device, String terminal) {
        return ref instanceof Ref.DeviceTerminal t
                && t.device().equals(device)
                && t.terminal().equals(terminal);
    }

    /** {@return how a joint is named: by its box and first member} */
    static String said(String box, Joint joint) {
        return box + ":"
                + joint.members().stream().map(Ref::said).sorted().findFirst().orElse("");
    }
}
