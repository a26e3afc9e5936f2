package org.splicebook.ask;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Answer;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.shutoff.Care;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Verdict;

/** What a shut-off tells beside its throws: the steps, who is affected, what stays live, what to test, what to restore, the proof. */
final class ShutOffSections {
    private static final int NAMED = 8;

    private final House house;
    private final ShutOff shutOff;

    ShutOffSections(House house, ShutOff shutOff) {
        this.house = house;
        this.shutOff = shutOff;
    }

    List<Answer.Section> all() {
        List<Answer.Section> all = new ArrayList<>();
        if (shutOff.verdict() != Verdict.NONE_KNOWN) {
            all.add(new Answer.Section("Do it in this order", true, steps(shutOff.toThrow())));
        }
        if (shutOff.clearingEverythingIsSafer()) {
            all.add(new Answer.Section("Safer: clear every source", true, throwing(shutOff.everything())));
        }
        all.add(new Answer.Section("Stays live even with every source that can be cleared", false, staysLive()));
        all.add(new Answer.Section("Who and what is affected", false, affected(shutOff.affected())));
        all.add(new Answer.Section(
                "Test before a hand goes in: " + shutOff.tests().size() + " readings, most likely live first",
                false,
                tests()));
        all.add(new Answer.Section("Why, wire by wire", false, wires()));
        all.add(new Answer.Section("When the power is back", true, restore()));
        all.add(new Answer.Section("Recomputed", false, proof()));
        return all;
    }

    /** The order of a shut-off, before and after its throws. */
    List<String> steps(List<ShutOff.Throw> throwing) {
        List<String> steps = new ArrayList<>();
        steps.add("Tell everyone who is affected, below. Switch loads off first, so that no breaker opens under load.");
        steps.addAll(throwing(throwing));
        steps.add("Lock and tag each: your name, the day, why. Then try to switch something on.");
        steps.add(
                "Prove your tester on a live point of the same kind; take the readings below; prove it again. If it fails, all"
                        + " readings are void.");
        steps.add(
                "Test again after every splice that is parted. One surprise: stop, close up, call a licensed electrician.");
        return steps;
    }

    /** {@return one line for each throw} */
    List<String> throwing(List<ShutOff.Throw> throwing) {
        return throwing.stream().map(this::said).toList();
    }

    private String said(ShutOff.Throw t) {
        String what = t.isMain()
                ? "the main"
                : t.breakers().stream()
                        .map(b -> b.startsWith(t.panel() + ".")
                                ? b.substring(t.panel().length() + 1) + label(b)
                                : b)
                        .collect(Collectors.joining(" and "));
        String where = t.place() == null ? "" : " (" + place(t.place()) + ")";
        String doubt = t.sureness() == Sureness.MAY && !t.isMain() ? ": not excluded" : "";
        return "Panel " + t.panel() + where + ": open " + what + doubt + ".";
    }

    private String label(String breaker) {
        var b = Breakers.all(house).get(breaker);
        return b == null || b.label() == null ? "" : " \"" + b.label() + "\"";
    }

    private String place(String key) {
        Place place = house.places().get(key);
        return place == null ? key : place.said();
    }

    List<String> staysLive() {
        List<String> lines = new ArrayList<>();
        for (ShutOff.StaysLive l : shutOff.staysLive()) {
            List<String> things = l.things().stream().map(t -> t.name()).toList();
            lines.add(some(things) + (l.boxes().isEmpty() ? "" : " in " + String.join(", ", l.boxes())) + ", from "
                    + (l.source().equals("?") ? "a supply that nobody recorded" : l.source()) + ".");
        }
        for (ShutOff.Alternate a : shutOff.alternates()) {
            lines.add(
                    (a.source().equals("?") ? "A supply that nobody recorded" : a.source())
                            + (a.hasThrow()
                                    ? " may feed back: stop it too."
                                    : " reaches it with nothing between that can be opened: it must be stopped and disconnected itself."));
        }
        return lines;
    }

    /** {@return what goes off, what must be thought of first before the rest, place by place} */
    List<String> affected(List<ShutOff.Affected> all) {
        List<String> lines = new ArrayList<>();
        all.stream()
                .filter(a -> a.care() != null)
                .sorted(Comparator.comparing(a -> Objects.requireNonNull(a.care())))
                .forEach(a -> lines.add(a.device() + (a.surely() ? " goes off" : " may go off") + in(a.place()) + ". "
                        + Objects.requireNonNull(a.care()).tell()));
        Map<String, Set<String>> byPlace = new LinkedHashMap<>();
        all.stream()
                .filter(a -> a.care() == null)
                .forEach(a -> byPlace.computeIfAbsent(
                                a.place() == null ? "somewhere" : place(a.place()), k -> new LinkedHashSet<>())
                        .add(a.device() + (a.surely() ? "" : " (possibly)")));
        byPlace.forEach((place, devices) -> lines.add(place + ": " + String.join(", ", devices) + "."));
        return lines;
    }

    private String in(@Nullable String place) {
        return place == null ? "" : ", " + place(place);
    }

    /**
     * Every reading. They are all pairs of the conductors in one order, so that it is enough to tell the order; else each is told.
     */
    private List<String> tests() {
        List<String> order = shutOff.tests().stream()
                .map(ShutOff.ToTest::conductor)
                .distinct()
                .toList();
        List<ShutOff.ToTest> all = new ArrayList<>();
        for (int i = 0; i < order.size(); i++) {
            all.add(new ShutOff.ToTest(order.get(i), null));
            for (String after : order.subList(i + 1, order.size())) {
                all.add(new ShutOff.ToTest(order.get(i), after));
            }
        }
        if (!new HashSet<>(all).equals(new HashSet<>(shutOff.tests()))) {
            return shutOff.tests().stream()
                    .map(t -> plain(t.conductor()) + " to "
                            + (t.against() == null ? "a known ground" : plain(t.against())) + ".")
                    .toList();
        }
        List<String> lines = new ArrayList<>();
        if (!order.isEmpty()) {
            lines.add("In this order: " + order.stream().map(this::plain).collect(Collectors.joining(", ")) + ".");
            lines.add(
                    "Each of them to a ground that is known to be good, then to every one that stands after it. Leave none out.");
        }
        return lines;
    }

    /** {@return a conductor as people say it; the end of a wire is told only where both ends are here} */
    private String plain(String conductor) {
        if (conductor.endsWith(".box")) {
            return "the metal of " + conductor.substring(0, conductor.length() - ".box".length());
        }
        String wire = conductor.split("@")[0];
        long ends = shutOff.tests().stream()
                .map(ShutOff.ToTest::conductor)
                .filter(c -> c.startsWith(wire + "@"))
                .distinct()
                .count();
        return ends > 1 ? conductor : wire;
    }

    private List<String> wires() {
        Map<String, Set<String>> by = new LinkedHashMap<>();
        for (ShutOff.WireReason w : shutOff.wires()) {
            String how = w.how() == ShutOff.How.THROUGH_LOAD ? " through a load" : "";
            String doubt = w.sureness() == Sureness.MAY ? " possibly" : "";
            by.computeIfAbsent(plain(w.wire()), k -> new LinkedHashSet<>()).add(w.breaker() + how + doubt);
        }
        Map<String, Set<String>> alike = new LinkedHashMap<>();
        by.forEach((wire, breakers) -> alike.computeIfAbsent(String.join(", ", breakers), k -> new LinkedHashSet<>())
                .add(wire));
        List<String> lines = new ArrayList<>();
        alike.forEach((breakers, wires) -> lines.add(String.join(", ", wires) + ": " + breakers + "."));
        return lines;
    }

    List<String> restore() {
        List<String> lines = new ArrayList<>();
        lines.add("Tools counted, covers on, people clear. Whoever put a lock on takes it off. One breaker at a time.");
        Set<Care> told = new LinkedHashSet<>();
        for (ShutOff.Affected a : shutOff.affected()) {
            Care care = a.care();
            if (care != null && told.add(care)) {
                lines.add(devices(care) + ": " + care.restore());
            }
        }
        lines.add("Press the test button of every protective device that was off, and reset it. Set the clocks.");
        return lines;
    }

    private String devices(Care care) {
        return shutOff.affected().stream()
                .filter(a -> a.care() == care)
                .map(ShutOff.Affected::device)
                .distinct()
                .collect(Collectors.joining(", "));
    }

    private List<String> proof() {
        ShutOff.Proof proof = shutOff.proof();
        List<String> lines = new ArrayList<>();
        if (proof.holds()) {
            lines.add(proof.variants().size()
                    + " times, with each wire end lifted in turn, with nothing lifted and with all apart:"
                    + " nothing recorded reaches it with these throws made.");
            return lines;
        }
        proof.variants().stream()
                .filter(v -> !v.by().isEmpty())
                .limit(NAMED)
                .forEach(v -> lines.add(lifted(v.lifted()) + ": still reached by " + some(v.by()) + "."));
        return lines;
    }

    private static String lifted(String lifted) {
        return lifted.isEmpty() ? "Nothing lifted" : lifted.equals("*") ? "All apart" : lifted + " lifted";
    }

    private static String some(List<String> names) {
        String few = names.stream().limit(NAMED).collect(Collectors.joining(", "));
        return names.size() <= NAMED ? few : few + " and " + (names.size() - NAMED) + " more";
    }
}
