package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Property;

/** Reads a property: buildings, types and parts first, then the links and meters that name them. */
final class PropertyReader {
    static final String VERSION = "1";

    private static final Set<String> ABOUT = Set.of("basis", "since", "before", "permit", "note");
    private static final Set<String> TOP = with(
            "splicebook-property",
            "property",
            "name",
            "complete",
            "buildings",
            "types",
            "common",
            "units",
            "links",
            "meters");
    private static final Set<String> BUILDING = with("name");
    private static final Set<String> TYPE = with("name", "house");
    private static final Set<String> PART = with("name", "house", "building", "type", "level");
    private static final Set<String> LINK = with("from", "point", "to", "source");
    private static final Set<String> METER = with("number", "counts", "in", "source");
    private static final String ID = "[a-z0-9][a-z0-9-]{0,63}";

    private final Problems problems;
    private final Map<String, Where> positions = new LinkedHashMap<>();
    private final Map<String, Property.Building> buildings = new LinkedHashMap<>();
    private final Map<String, Property.UnitType> types = new LinkedHashMap<>();
    private final Map<String, Property.Part> parts = new LinkedHashMap<>();
    private final Map<String, Where> partsAt = new LinkedHashMap<>();
    private final Map<String, String> partOfHouse = new HashMap<>();

    PropertyReader(Problems problems) {
        this.problems = problems;
    }

    Map<String, Where> positions() {
        return positions;
    }

    private static Set<String> with(String... keys) {
        Set<String> all = new java.util.LinkedHashSet<>(List.of(keys));
        all.addAll(ABOUT);
        return all;
    }

    Property read(Node whole) {
        Fields f = Fields.of(whole, TOP, problems);
        f.need("splicebook-property", "Begin the file with splicebook-property: 1.");
        f.need("property", "Give the property an id, for example property: alder-row.");
        Versions.check(problems, f.scalar("splicebook-property"), "property file", VERSION);
        named(f, "buildings").forEach(this::building);
        named(f, "types").forEach(this::type);
        List<Node.Entry> common = named(f, "common");
        List<Node.Entry> units = named(f, "units");
        common.forEach(e -> name(e.key()));
        units.forEach(e -> name(e.key()));
        common.forEach(e -> part(e, Property.Role.COMMON));
        units.forEach(e -> part(e, Property.Role.UNIT));
        if (partsAt.isEmpty()) {
            problems.error(
                    ProblemKind.MISSING,
                    f.at(),
                    "A property without units and common parts.",
                    "List them: units: {14a: {house: alder-row-14a}}.");
        }
        List<Property.Link> links = links(f);
        Map<String, Property.Meter> meters = new LinkedHashMap<>();
        named(f, "meters").forEach(e -> meter(e, meters));
        String id = id(f, "property");
        Set<Boolean> complete = f.words("complete", Map.of("links", true));
        return new Property(
                id == null ? "" : id,
                f.text("name"),
                complete != null && !complete.isEmpty(),
                buildings,
                types,
                parts,
                links,
                meters,
                f.about());
    }

    private List<Node.Entry> named(Fields f, String section) {
        List<Node.Entry> good = new ArrayList<>();
        for (Node.Entry e : f.map(section)) {
            if (Values.name(e.key(), problems) != null) {
                good.add(e);
            }
        }
        return good;
    }

    private void name(Node.Scalar key) {
        Where before = partsAt.putIfAbsent(key.text(), key.at());
        if (before != null) {
            problems.error(
                    ProblemKind.DUPLICATE,
                    key.at(),
                    "The name " + key.text() + " is given to a unit and to a common part.",
                    "Give one of them another name.");
        }
    }

    private void building(Node.Entry e) {
        Fields f = Fields.of(e.value(), BUILDING, problems);
        buildings.put(e.key().text(), new Property.Building(e.key().text(), f.text("name"), f.about()));
    }

    private void type(Node.Entry e) {
        Fields f = Fields.of(e.value(), TYPE, problems);
        f.need("house", "Name the house that is the pattern: house: alder-row-14a.");
        positions.put("types." + e.key().text(), f.at("house"));
        String house = id(f, "house");
        types.put(
                e.key().text(),
                new Property.UnitType(e.key().text(), f.text("name"), house == null ? "" : house, f.about()));
    }

    private void part(Node.Entry e, Property.Role role) {
        Fields f = Fields.of(e.value(), PART, problems);
        String name = e.key().text();
        f.need(
                "house",
                "Name the house that is its record: house: alder-row-" + name.toLowerCase(java.util.Locale.ROOT) + ".");
        String house = id(f, "house");
        String other = house == null ? null : partOfHouse.putIfAbsent(house, name);
        if (other != null) {
            problems.error(
                    ProblemKind.DUPLICATE,
                    f.at("house"),
                    "The house " + house + " is the record of " + other + " already.",
                    "Each part has a record of its own.");
        }
        positions.put("parts." + name, f.at("house"));
        String building = known(f, "building", buildings.keySet(), "building");
        String type = known(f, "type", types.keySet(), "type");
        parts.put(
                name,
                new Property.Part(
                        name,
                        f.text("name"),
                        role,
                        house == null ? "" : house,
                        building,
                        type,
                        f.text("level"),
                        f.about()));
    }

    private List<Property.Link> links(Fields top) {
        List<Property.Link> links = new ArrayList<>();
        for (Node n : top.list("links")) {
            Fields f = Fields.of(n, LINK, problems);
            f.need("from", "Name the part that feeds.");
            f.need("point", "Name the load point in its record that feeds the other: a boundary.");
            f.need("to", "Name the part that is fed.");
            f.need("source", "Name the source in its record that is fed.");
            String from = known(f, "from", partsAt.keySet(), "unit or common part");
            String to = known(f, "to", partsAt.keySet(), "unit or common part");
            String point = f.text("point");
            String source = f.text("source");
            if (from != null && from.equals(to)) {
                problems.error(
                        ProblemKind.BAD_VALUE,
                        n.at(),
                        "This link leads from " + from + " to itself.",
                        "What is within one record is written there.");
            } else if (from != null && to != null && point != null && source != null) {
                positions.put("links[" + links.size() + "]", n.at());
                links.add(new Property.Link(from, point, to, source, f.about()));
            }
        }
        return links;
    }

    private void meter(Node.Entry e, Map<String, Property.Meter> meters) {
        Fields f = Fields.of(e.value(), METER, problems);
        f.need("counts", "Name the part that pays for what it counts.");
        f.need("in", "Name the part in whose record the source is.");
        f.need("source", "Name the source that it counts.");
        String counts = known(f, "counts", partsAt.keySet(), "unit or common part");
        String in = known(f, "in", partsAt.keySet(), "unit or common part");
        String source = f.text("source");
        String number = f.text("number");
        if (counts == null || in == null || source == null) {
            return;
        }
        for (Property.Meter m : meters.values()) {
            if (m.in().equals(in) && m.source().equals(source)) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        e.key().at(),
                        "The source " + source + " of " + in + " is counted by " + m.name() + " already.",
                        "One meter counts a source; a second one stands at a source of its own.");
            }
        }
        positions.put("meters." + e.key().text(), e.key().at());
        meters.put(e.key().text(), new Property.Meter(e.key().text(), number, counts, in, source, f.about()));
    }

    private @Nullable String known(Fields f, String key, Collection<String> among, String what) {
        Node.Scalar s = f.scalar(key);
        if (s == null) {
            return null;
        }
        if (!among.contains(s.text())) {
            problems.error(
                    ProblemKind.DANGLING_NAME,
                    s.at(),
                    "There is no " + what + " " + s.said() + " in this property.",
                    () -> Nearest.cure(s.text(), among, "names"));
            return null;
        }
        return s.text();
    }

    private @Nullable String id(Fields f, String key) {
        Node.Scalar s = f.scalar(key);
        if (s != null && !s.text().matches(ID)) {
            problems.error(
                    ProblemKind.BAD_NAME,
                    s.at(),
                    s.said() + " is not an id.",
                    "An id has lower-case letters, digits and hyphens, at most " + Limits.NAME + " of them.");
            return null;
        }
        return s == null ? null : s.text();
    }
}
