package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;

/** In what two records differ, part by part: whatever can be written in a house file is compared. */
public final class HouseDifferences {
    /** What says how a thing is known and how old it is, rather than how it is. */
    public static final Set<String> ABOUT = Set.of("basis", "since", "before", "permit", "note");

    /** What belongs to one house alone, however alike another is. */
    public static final Set<String> OWN = Set.of("house", "name", "built", "sightings", "tests", "accepted");

    private static final Map<String, String> SECTIONS = sections();

    /** Keys under which things stand by name: each of them is compared by itself. */
    private static final Set<String> NAMED = Set.of("devices", "breakers");

    private static final Node NOTHING = new Node.Entries(List.of(), org.splicebook.problem.Where.NOWHERE);

    private final Set<String> ignored;
    private final List<Difference> found = new ArrayList<>();

    private HouseDifferences(Set<String> ignored) {
        this.ignored = ignored;
    }

    private static Map<String, String> sections() {
        Map<String, String> s = new LinkedHashMap<>();
        s.put("sources", "source");
        s.put("places", "place");
        s.put("panels", "panel");
        s.put("boxes", "box");
        s.put("cables", "cable");
        return s;
    }

    /**
     * {@return in what they differ: what is said of the whole first, then sources, places, panels, boxes, cables, then what was observed}
     *
     * @param was the earlier record
     * @param is the later one
     * @param ignored keys of the house file that are left out wherever they stand
     */
    public static List<Difference> between(House was, House is, Set<String> ignored) {
        HouseDifferences d = new HouseDifferences(ignored);
        Map<String, Node> a = map(HouseWriter.tree(was));
        Map<String, Node> b = map(HouseWriter.tree(is));
        Set<String> keys = new java.util.LinkedHashSet<>(a.keySet());
        keys.addAll(b.keySet());
        keys.removeAll(ignored);
        keys.stream()
                .filter(k -> !SECTIONS.containsKey(k) && !(isList(a.get(k)) || isList(b.get(k))))
                .forEach(k -> d.compare("house", k, a.get(k), b.get(k)));
        SECTIONS.forEach((section, word) -> d.section(word, map(a.get(section)), map(b.get(section))));
        keys.stream()
                .filter(k -> isList(a.get(k)) || isList(b.get(k)))
                .forEach(k -> d.list("house", k, a.get(k), b.get(k)));
        return List.copyOf(d.found);
    }

    private static boolean isList(@Nullable Node n) {
        return n instanceof Node.Items;
    }

    private void section(String word, Map<String, Node> was, Map<String, Node> is) {
        Set<String> names = new TreeSet<>(was.keySet());
        names.addAll(is.keySet());
        for (String name : names) {
            String part = word + " " + name;
            Node a = was.get(name);
            Node b = is.get(name);
            if (a == null || b == null) {
                found.add(new Difference(part, "", a == null ? "" : said(a), b == null ? "" : said(b)));
            } else {
                compare(part, "", a, b);
            }
        }
    }

    private void compare(String part, String what, @Nullable Node was, @Nullable Node is) {
        if (was instanceof Node.Items || is instanceof Node.Items) {
            list(part, what, was, is);
        } else if (was instanceof Node.Entries a && is instanceof Node.Entries b) {
            Map<String, Node> before = map(a);
            Map<String, Node> now = map(b);
            Set<String> keys = new java.util.LinkedHashSet<>(before.keySet());
            keys.addAll(now.keySet());
            // A thing may be called as a key is; only keys that say something are left out.
            keys.removeIf(k -> ignored.contains(k)
                    && !(before.get(k) instanceof Node.Entries)
                    && !(now.get(k) instanceof Node.Entries));
            for (String k : keys) {
                boolean isNamed = NAMED.contains(k);
                compare(
                        part,
                        (what + " " + said(k)).strip(),
                        isNamed ? before.getOrDefault(k, NOTHING) : before.get(k),
                        isNamed ? now.getOrDefault(k, NOTHING) : now.get(k));
            }
        } else {
            String a = was == null ? "" : said(was);
            String b = is == null ? "" : said(is);
            if (!a.equals(b)) {
                found.add(new Difference(part, what, a, b));
            }
        }
    }

    /** Lists are compared as sets: which joints are new, which are gone. */
    private void list(String part, String what, @Nullable Node was, @Nullable Node is) {
        List<String> before = items(was);
        List<String> now = items(is);
        String one = what.replaceAll("s$", "");
        before.stream().filter(x -> !now.contains(x)).forEach(x -> found.add(new Difference(part, one, x, "")));
        now.stream().filter(x -> !before.contains(x)).forEach(x -> found.add(new Difference(part, one, "", x)));
    }

    private List<String> items(@Nullable Node n) {
        if (n instanceof Node.Items list) {
            return list.items().stream().map(this::said).toList();
        }
        return n == null ? List.of() : List.of(said(n));
    }

    private static String said(String key) {
        return switch (key) {
            case "devices" -> "device";
            case "breakers" -> "breaker";
            default -> key;
        };
    }

    private String said(Node n) {
        if (n instanceof Node.Scalar s) {
            return s.text();
        }
        if (n instanceof Node.Items list) {
            return list.items().stream().map(this::said).collect(Collectors.joining(", "));
        }
        return map(n).entrySet().stream()
                .filter(e -> !ignored.contains(e.getKey()))
                .map(e -> e.getKey() + " "
                        + (e.getValue() instanceof Node.Scalar ? said(e.getValue()) : "(" + said(e.getValue()) + ")"))
                .collect(Collectors.joining(", "));
    }

    private static Map<String, Node> map(@Nullable Node n) {
        Map<String, Node> map = new LinkedHashMap<>();
        if (n instanceof Node.Entries entries) {
            entries.entries().forEach(e -> map.put(e.key().text(), e.value()));
        }
        return map;
    }
}
