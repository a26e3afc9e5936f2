package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.BoxPart;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** Reads off a record what is in a box, and what of it is not known. */
final class Opened {
    private static final Set<String> GROUND_COLOURS = Set.of("bare", "green", "green-yellow");

    private final House house;
    private final Box box;
    private final Map<String, WireUse> uses;
    private final List<String> notKnown = new ArrayList<>();
    private final List<Contents.Wire> wires = new ArrayList<>();
    private final List<Contents.Wire> grounds = new ArrayList<>();
    private Basis basis;
    private boolean isPullBox;

    private Opened(House house, Map<String, WireUse> uses, Box box) {
        this.house = house;
        this.uses = uses;
        this.box = box;
        this.basis = box.about().basisOr(house.basis());
    }

    /**
     * What is in a box.
     *
     * @param contents what counts
     * @param notKnown what is not known, in words
     * @param basis the weakest basis that it rests on
     * @param isPullBox whether a wire is so large that another rule sizes the box
     */
    record Found(Contents contents, List<String> notKnown, Basis basis, boolean isPullBox) {}

    /**
     * {@return what is in a box}
     *
     * @param uses what the wires of the house are, by their names
     * @param cables those that may enter it
     */
    static Found of(House house, Map<String, WireUse> uses, List<Cable> cables, Box box) {
        return new Opened(house, uses, box).found(cables);
    }

    /** {@return the cables that may enter each box, by its name, in the order of the house} */
    static Map<String, List<Cable>> cables(House house) {
        Map<String, List<Cable>> all = new HashMap<>();
        for (Cable c : house.cables().values()) {
            Set<String> boxes = new LinkedHashSet<>(c.through());
            for (CableEnd e : c.ends()) {
                if (e instanceof CableEnd.At at) {
                    boxes.add(at.box());
                } else if (e instanceof CableEnd.OneOf some) {
                    boxes.addAll(some.boxes());
                }
            }
            boxes.forEach(b -> all.computeIfAbsent(b, k -> new ArrayList<>()).add(c));
        }
        return all;
    }

    /** {@return what each wire of a house is, by its name} */
    static Map<String, WireUse> uses(Wiring wiring) {
        Map<String, WireUse> uses = new HashMap<>();
        wiring.wires().forEach(u -> uses.put(u.wire(), u));
        return uses;
    }

    private Found found(List<Cable> cables) {
        cables.forEach(this::enter);
        boolean mayHoldMore = !house.isComplete(box, Complete.CABLES);
        if (mayHoldMore) {
            notKnown.add("Whether more cables enter than are recorded: the box is not said to be complete.");
        }
        Contents noYokes = new Contents(wires, grounds, List.of(), null, List.of(), List.of(), List.of(), mayHoldMore);
        Contents all = new Contents(
                wires, grounds, yokes(noYokes), clamps(), fittings(), blocks(noYokes), leads(), mayHoldMore);
        return new Found(all, List.copyOf(notKnown), basis, isPullBox);
    }

    private void enter(Cable c) {
        long ends =
                c.ends().stream().filter(e -> box.name().equals(e.boxOrNull())).count();
        long mayEnd = c.ends().stream()
                .filter(e -> e instanceof CableEnd.OneOf some && some.boxes().contains(box.name()))
                .count();
        boolean passes = c.through().contains(box.name());
        basis = basis.weaker(c.about().basisOr(house.basis()));
        int fewest = (int) ends + (passes ? 1 : 0);
        int most = (int) (ends + mayEnd) + (passes ? passing(c) : 0);
        if (mayEnd > 0) {
            notKnown.add("Whether " + c.name() + " ends in this box.");
        }
        if (passes && loops(c)) {
            fewest++;
        }
        for (Wire w : c.wires()) {
            if (!w.metal()) {
                wire(c, w, fewest, most);
            }
        }
    }

    private boolean loops(Cable c) {
        return c.loops() != null && c.loops().contains(box.name());
    }

    private int passing(Cable c) {
        if (c.loops() == null) {
            notKnown.add("Whether " + c.name()
                    + ", which passes uncut, lies in a loop of at least twice the free length: then it counts twice.");
            return 2;
        }
        return loops(c) ? 2 : 1;
    }

    private void wire(Cable c, Wire w, int fewest, int most) {
        String name = c.name() + "." + w.name();
        isPullBox |= Sizes.isForPullBox(w.size());
        if (!Sizes.isListed(w.size())) {
            notKnown.add(
                    w.size() == null
                            ? "The size of " + name + "."
                            : "The room that " + name + " takes: " + Sizes.said(w.size()) + " is not in the table.");
        }
        boolean isGround = isGround(uses.get(name), w);
        (isGround ? grounds : wires).add(new Contents.Wire(name, w.size(), fewest, most));
    }

    /** Function follows connection; colour decides only where nothing is connected. */
    static boolean isGround(@Nullable WireUse use, Wire w) {
        List<WireUse.Use> shown = use == null
                ? List.of()
                : use.uses().stream().filter(u -> u.sureness() != Sureness.MAY).toList();
        return shown.isEmpty()
                ? GROUND_COLOURS.contains(w.colour())
                : shown.stream().allMatch(u -> u.conductor() == Conductor.GROUND);
    }

    private @Nullable Boolean clamps() {
        String said = box.shell() == null ? null : box.shell().clamps();
        if (said == null) {
            notKnown.add("Whether there are clamps inside.");
            return null;
        }
        return said.equals("inside");
    }

    private List<BoxPart> parts(BoxPart.Kind kind) {
        return box.shell() == null
                ? List.of()
                : box.shell().parts().stream().filter(p -> p.kind() == kind).toList();
    }

    private List<String> fittings() {
        return Stream.of(BoxPart.Kind.STUD, BoxPart.Kind.HICKEY)
                .filter(k -> !parts(k).isEmpty())
                .map(k -> k.name().toLowerCase(java.util.Locale.ROOT))
                .toList();
    }

    private List<Contents.Block> blocks(Contents in) {
        List<Contents.Block> all = new ArrayList<>();
        for (BoxPart p : parts(BoxPart.Kind.TERMINAL_BLOCK)) {
            if (p.wire() == null) {
                notKnown.add("The size of the largest wire on the terminal block.");
            }
            all.add(new Contents.Block(
                    p.wire() == null
                            ? new Room(FillTables.SMALLEST, in.largest().most())
                            : Sizes.of(p.wire())));
        }
        return all;
    }

    private List<Contents.Leads> leads() {
        List<Contents.Leads> all = new ArrayList<>();
        for (Device d : box.devices().values()) {
            if (FillTables.WITH_LEADS.contains(d.kind().name())) {
                all.add(leads(d));
            }
        }
        return all;
    }

    private Contents.Leads leads(Device d) {
        int own = (int) d.kind().terminals().stream()
                .filter(t -> t.role() != DeviceKind.Role.GROUND && t.role() != DeviceKind.Role.METAL)
                .count();
        int free = Math.max(0, own - FillTables.LEADS_FREE);
        if (d.canopy() == null) {
            notKnown.add("What canopy " + d.name()
                    + " has: under a flat one its own wires count, under a domed one they do not.");
            return new Contents.Leads(d.name(), 0, own);
        }
        return switch (d.canopy()) {
            case "flat" -> new Contents.Leads(d.name(), own, own);
            case "domed" -> new Contents.Leads(d.name(), free, free);
            default -> new Contents.Leads(d.name(), 0, 0);
        };
    }

    private List<Contents.Yoke> yokes(Contents in) {
        List<Contents.Yoke> all = new ArrayList<>();
        for (Device d : box.devices().values()) {
            double gangs = d.kind().boxFill() / 2;
            if (gangs > 0) {
                boolean mayBeWide = d.kind().family() == DeviceKind.Family.RECEPTACLE
                        && gangs < FillTables.WIDE_GANGS
                        && is240(d.kind());
                double most = gangs;
                double fewest = gangs;
                if (mayBeWide && d.rating() == null) {
                    most = FillTables.WIDE_GANGS;
                    notKnown.add("The rating of " + d.name() + ": from " + FillTables.WIDE_FROM
                            + " A on a receptacle is " + FillTables.WIDE_GANGS + " gangs wide.");
                } else if (mayBeWide && Objects.requireNonNull(d.rating()).base() >= FillTables.WIDE_FROM) {
                    most = FillTables.WIDE_GANGS;
                    fewest = most;
                }
                all.add(new Contents.Yoke(d.name(), onIt(d, in), fewest, most));
            }
        }
        return all;
    }

    private static boolean is240(DeviceKind kind) {
        return kind.loadPoints().stream().flatMap(l -> l.pairs().stream()).anyMatch(p -> p.volts() > 200);
    }

    /** The room of the largest wire on a device: between that of the thinnest and that of the thickest wire of its joints. */
    private Room onIt(Device d, Contents in) {
        Room largest = null;
        Set<String> joined = new HashSet<>();
        for (Joint j : box.joints()) {
            List<Ref.DeviceTerminal> own = j.members().stream()
                    .filter(m -> m instanceof Ref.DeviceTerminal t && t.device().equals(d.name()))
                    .map(Ref.DeviceTerminal.class::cast)
                    .toList();
            if (own.isEmpty()) {
                continue;
            }
            own.forEach(t -> joined.add(t.terminal()));
            basis = basis.weaker(j.about().basisOr(box.about().basisOr(house.basis())));
            Room here = inJoint(j, d);
            if (here != null) {
                largest = largest == null ? here : largest.max(here);
            }
        }
        if (largest != null) {
            return mayHaveMore(d, joined)
                    ? new Room(largest.least(), in.largest().most())
                    : largest;
        }
        notKnown.add("Which wires are on " + d.name() + ", and so their size.");
        return new Room(FillTables.SMALLEST, in.largest().most());
    }

    /** Whether a terminal that takes wires is in no joint, in a box whose joints are not all listed. */
    private boolean mayHaveMore(Device d, Set<String> joined) {
        return !house.isComplete(box, Complete.JOINTS)
                && d.kind().terminals().stream()
                        .filter(t -> t.role() != DeviceKind.Role.METAL && t.role() != DeviceKind.Role.GROUND)
                        .anyMatch(t -> !joined.contains(t.name()) && !d.unused().contains(t.name()))
                && isMixed();
    }

    /** Whether wires of unlike sizes are in the box: where all are alike it does not matter which is on what. */
    private boolean isMixed() {
        return Stream.concat(wires.stream(), grounds.stream())
                        .map(w -> String.valueOf(w.size()))
                        .distinct()
                        .count()
                > 1;
    }

    private @Nullable Room inJoint(Joint j, Device d) {
        Room alike = null;
        boolean holds = j.hold() == Joint.Hold.DEVICE
                && j.holders().stream()
                        .anyMatch(h ->
                                h instanceof Ref.DeviceTerminal t && t.device().equals(d.name()));
        for (Ref r : j.members()) {
            Wire w = r instanceof Ref.WireEnd e ? wire(e) : null;
            if (w != null && !w.metal()) {
                Room room = Sizes.of(w.size());
                alike = alike == null ? room : holds ? alike.max(room) : alike.or(room);
            }
        }
        return alike;
    }

    private @Nullable Wire wire(Ref.WireEnd end) {
        Cable c = house.cables().get(end.cable());
        return c == null
                ? null
                : c.wires().stream()
                        .filter(w -> w.name().equals(end.wire()))
                        .findFirst()
                        .orElse(null);
    }
}
