package org.splicebook.wiring.evidence;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/** Which cables, boxes, panels, breakers and sources differ between two records in what is wired how; how well it is known does not matter. */
final class Differences {
    private Differences() {}

    static Map<String, Expiry.How> between(House then, House now) {
        Map<String, Expiry.How> found = new TreeMap<>();
        compare(then.cables(), now.cables(), Differences::bare, found);
        compare(then.boxes(), now.boxes(), Differences::bare, found);
        compare(then.panels(), now.panels(), Differences::shell, found);
        now.panels().forEach((n, p) -> {
            Panel before = then.panels().get(n);
            if (before != null) {
                compare(breakers(before), breakers(p), b -> b, found);
                landings(before, p, found);
            }
        });
        compare(then.sources(), now.sources(), Differences::bare, found);
        return found;
    }

    private static <T> void compare(
            Map<String, T> then, Map<String, T> now, UnaryOperator<T> bare, Map<String, Expiry.How> found) {
        then.forEach((n, t) -> {
            T other = now.get(n);
            if (other == null) {
                found.put(n, Expiry.How.REMOVED);
            } else if (!bare.apply(t).equals(bare.apply(other))) {
                found.put(n, Expiry.How.CHANGED);
            }
        });
        now.keySet().stream().filter(n -> !then.containsKey(n)).forEach(n -> found.putIfAbsent(n, Expiry.How.ADDED));
    }

    /** {@return whether something that was added to the record is said to have been there before a day} */
    static boolean isOlder(House now, String what, String day) {
        Provenance about = about(now, what);
        return about != null && (isBefore(about.since(), day) || isBefore(about.before(), day));
    }

    /**
     * {@return what of a record is said to have been put in on or after a day, by name of the cable, box, panel, breaker or source that it
     * is part of; a year alone may be after any day of it}
     */
    static Map<String, Set<String>> newerThan(House now, String day) {
        Map<String, Set<String>> found = new TreeMap<>();
        now.cables().forEach((n, c) -> newer(c.about(), day, n, n, found));
        now.sources().forEach((n, s) -> newer(s.about(), day, n, n, found));
        now.boxes().forEach((n, b) -> {
            newer(b.about(), day, n, n, found);
            b.devices().forEach((d, device) -> newer(device.about(), day, n, d, found));
            b.joints().forEach(j -> newer(j.about(), day, n, "a joint in " + n, found));
        });
        now.panels().forEach((n, p) -> {
            newer(p.about(), day, n, n, found);
            p.joints().forEach(j -> newer(j.about(), day, n, "a landing in " + n, found));
            p.breakers().values().forEach(b -> {
                String name = n + "." + b.key();
                newer(b.about(), day, name, name, found);
            });
        });
        return found;
    }

    private static void newer(Provenance about, String day, String on, String what, Map<String, Set<String>> found) {
        String since = about.since();
        if (since != null
                && day.substring(0, Math.min(since.length(), day.length())).compareTo(since) <= 0) {
            found.computeIfAbsent(on, k -> new TreeSet<>()).add(what);
        }
    }

    private static @Nullable Provenance about(House now, String what) {
        if (now.cables().containsKey(what)) {
            return now.cables().get(what).about();
        } else if (now.boxes().containsKey(what)) {
            return now.boxes().get(what).about();
        } else if (now.panels().containsKey(what)) {
            return now.panels().get(what).about();
        }
        Source s = now.sources().get(what);
        return s == null ? null : s.about();
    }

    /** A year alone is before a day of the next year at the earliest. */
    private static boolean isBefore(@Nullable String said, String day) {
        return said != null
                && said.length() >= 4
                && said.length() <= day.length()
                && day.substring(0, said.length()).compareTo(said) > 0;
    }

    private static List<Joint> bare(List<Joint> joints) {
        return joints.stream()
                .map(j -> new Joint(j.members(), j.hold(), j.holders(), null, Provenance.NONE))
                .toList();
    }

    private static Cable bare(Cable c) {
        return new Cable(c.name(), c.kind(), null, c.wires(), c.ends(), c.through(), null, Provenance.NONE);
    }

    private static Box bare(Box b) {
        Map<String, Device> devices = new LinkedHashMap<>();
        b.devices()
                .forEach((n, d) -> devices.put(
                        n, new Device(n, d.kind(), null, d.tabs(), d.unused(), null, null, null, Provenance.NONE)));
        return new Box(b.name(), null, b.shell(), null, b.hidden(), devices, bare(b.joints()), null, Provenance.NONE);
    }

    private static Map<String, Breaker> breakers(Panel p) {
        Map<String, Breaker> breakers = new LinkedHashMap<>();
        p.breakers()
                .forEach((n, b) -> breakers.put(
                        p.name() + "." + n,
                        new Breaker(
                                b.spaces(),
                                b.type(),
                                null,
                                b.protects(),
                                b.neutralTerminal(),
                                b.opensNeutral(),
                                b.commonTrip(),
                                b.position(),
                                null,
                                Provenance.NONE)));
        return breakers;
    }

    /** What lands where it did not, or no longer does: the cable and the breaker count as changed. */
    private static void landings(Panel then, Panel now, Map<String, Expiry.How> found) {
        Set<List<String>> before = pairs(then);
        Set<List<String>> after = pairs(now);
        Set<List<String>> differ = new HashSet<>(before);
        differ.addAll(after);
        differ.removeIf(pair -> before.contains(pair) && after.contains(pair));
        differ.forEach(pair -> found.putIfAbsent(pair.get(0), Expiry.How.CHANGED));
    }

    /** Every two members of a joint, both ways round: what the first belongs to, and how both are written. */
    private static Set<List<String>> pairs(Panel p) {
        Set<List<String>> pairs = new HashSet<>();
        for (Joint j : p.joints()) {
            for (Ref a : j.members()) {
                for (Ref b : j.members()) {
                    if (!a.equals(b)) {
                        pairs.add(List.of(owner(p, a), a.said(), b.said()));
                    }
                }
            }
        }
        return pairs;
    }

    private static String owner(Panel p, Ref r) {
        if (r instanceof Ref.WireEnd w) {
            return w.cable();
        }
        String terminal = r.said().replace(".neutral", "");
        return p.breakers().values().stream()
                .filter(b -> b.spaces().contains(terminal))
                .map(b -> p.name() + "." + b.key())
                .findFirst()
                .orElse(terminal.startsWith("line-") ? p.name() : p.name() + "." + terminal);
    }

    /** A panel without its breakers and landings. */
    private static Panel shell(Panel p) {
        return new Panel(
                p.name(),
                null,
                p.supply(),
                p.spaces(),
                null,
                p.main(),
                Map.of(),
                p.ties(),
                p.pullOuts(),
                p.exclusive(),
                p.legs(),
                p.buses(),
                p.bonded(),
                p.neutralFuse(),
                List.of(),
                null,
                Provenance.NONE);
    }

    private static Source bare(Source s) {
        return new Source(s.name(), s.kind(), s.system(), null, s.bond(), s.at(), s.from(), Provenance.NONE);
    }
}
