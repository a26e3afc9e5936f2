package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Acceptance;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.CodeBook;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Provenance;
import org.splicebook.record.Sighting;
import org.splicebook.record.TestResult;
import org.splicebook.record.Unit;

/** Reads a whole house: names first, then what they name, then the joints between, then what was seen. */
final class HouseReader {
    private static final String VERSION = "1";
    private static final int LAST_YEAR = 2200;

    private final Problems problems;
    private final Known known;

    HouseReader(Problems problems) {
        this.problems = problems;
        this.known = new Known(problems);
    }

    /** {@return the house, or null when there were problems} */
    @Nullable
    House read(Node node) {
        Fields f = Fields.of(node, Shapes.keys(Shapes.HOUSE), problems);
        version(f);
        List<Node.Entry> sources = named(f, "sources", known.sourceNames, "a source");
        List<Node.Entry> places = named(f, "places", known.placeNames, null);
        List<Node.Entry> panels = named(f, "panels", known.panelNames, "a panel");
        List<Node.Entry> cables = named(f, "cables", known.cableNames, "a cable");
        List<Node.Entry> boxes = named(f, "boxes", known.boxNames, null);
        for (Node.Entry box : boxes) {
            if (known.panelNames.contains(box.key().text())) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        box.key().at(),
                        "The name " + box.key().text() + " is given to a box and to a panel.",
                        "Give one of them another name: an end of a cable names either.");
            }
        }
        known.ends.addAll(known.boxNames);
        known.ends.addAll(known.panelNames);
        places.forEach(this::place);
        SourceReader source = new SourceReader(known);
        sources.forEach(source::read);
        CableReader cable = new CableReader(known);
        cables.forEach(cable::read);
        Map<String, Fields> panelFields = new LinkedHashMap<>();
        PanelReader panel = new PanelReader(known);
        panels.forEach(e -> panelFields.put(e.key().text(), panel.read(e)));
        Map<String, Fields> boxFields = new LinkedHashMap<>();
        BoxReader box = new BoxReader(known);
        boxes.forEach(e -> boxFields.put(e.key().text(), box.read(e)));
        Set<Complete> complete = f.words("complete", Words.COMPLETE);
        Map<String, Panel> joinedPanels = joinPanels(panelFields);
        Map<String, Box> joinedBoxes = joinBoxes(boxFields);
        SightingReader seen = new SightingReader(known);
        List<Sighting> sightings = readAll(f.list("sightings"), seen::sighting);
        List<TestResult> tests = readAll(f.list("tests"), seen::test);
        List<Acceptance> accepted = readAll(f.list("accepted"), seen::acceptance);
        String id = id(f);
        House house = new House(
                id == null ? "" : id,
                f.text("name"),
                f.integer("built", 1, LAST_YEAR),
                f.word("basis", Words.BASIS, Basis.ASSUMED),
                code(f),
                f.quantity("area", Unit.Dimension.AREA, null),
                complete == null ? Set.of() : complete,
                known.sources,
                known.places,
                joinedPanels,
                known.cables,
                joinedBoxes,
                sightings,
                tests,
                accepted,
                new Provenance(null, f.text("since"), f.text("before"), f.text("permit"), f.note()));
        return problems.any() ? null : house;
    }

    private void version(Fields f) {
        f.need("splicebook", "Begin the file with splicebook: 1.");
        Versions.check(problems, f.scalar("splicebook"), "house file", VERSION);
    }

    private @Nullable String id(Fields f) {
        f.need("house", "Give the house an id, for example house: alder-row-14b.");
        Node.Scalar s = f.scalar("house");
        if (s != null && !s.text().matches("[a-z0-9][a-z0-9-]{0,63}")) {
            problems.error(
                    ProblemKind.BAD_NAME,
                    s.at(),
                    s.said() + " is not an id of a house.",
                    "An id has lower-case letters, digits and hyphens, at most " + Limits.NAME + " of them.");
            return null;
        }
        return s == null ? null : s.text();
    }

    private @Nullable CodeBook code(Fields f) {
        Node n = f.node("code");
        if (n == null) {
            return null;
        }
        Fields code = Fields.of(n, Shapes.keys("code"), problems);
        code.need("country", "Say whose: country: US.");
        code.need("edition", "Say which: edition: 2023.");
        return new CodeBook(code.text("country", ""), code.text("edition", ""), code.note());
    }

    /** The entries of a section whose names are in order; each name is known from here on. */
    private List<Node.Entry> named(Fields f, String section, Set<String> names, @Nullable String beforeDot) {
        List<Node.Entry> good = new ArrayList<>();
        for (Node.Entry e : f.map(section)) {
            String name = Values.name(e.key(), problems);
            if (name != null) {
                names.add(name);
                good.add(e);
                if (beforeDot != null) {
                    known.take(name, beforeDot, e.key().at());
                }
            }
        }
        return good;
    }

    private void place(Node.Entry e) {
        Fields f = Fields.of(e.value(), Shapes.keys("place"), problems);
        f.need("kind", "Say what it is: kind: bedroom. What there is: " + Said.list(Words.PLACE_KIND.keySet()) + ".");
        var kind = f.word("kind", Words.PLACE_KIND, org.splicebook.record.PlaceKind.OTHER);
        String name = e.key().text();
        known.places.put(name, new Place(name, f.text("name"), kind, f.yesNo("finished"), f.text("level"), f.about()));
    }

    private Map<String, Panel> joinPanels(Map<String, Fields> fields) {
        Map<String, Panel> joined = new LinkedHashMap<>();
        known.panels.forEach((name, p) -> {
            Fields f = fields.get(name);
            List<Joint> joints = f == null ? List.of() : new JointReader(known, name, p).read(f.list("joints"));
            joined.put(name, p.withJoints(joints, p.complete()));
        });
        return joined;
    }

    private Map<String, Box> joinBoxes(Map<String, Fields> fields) {
        Map<String, Box> joined = new LinkedHashMap<>();
        known.boxes.forEach((name, b) -> {
            Fields f = fields.get(name);
            List<Joint> joints = f == null ? List.of() : new JointReader(known, name, null).read(f.list("joints"));
            joined.put(
                    name,
                    new Box(
                            name,
                            b.place(),
                            b.shell(),
                            b.cableEntries(),
                            b.hidden(),
                            withTabs(b.devices()),
                            joints,
                            b.complete(),
                            b.about()));
        });
        return joined;
    }

    /** A tab that is not said is in if a plain terminal was named in a joint, which means one half while it is in. */
    private Map<String, Device> withTabs(Map<String, Device> devices) {
        Map<String, Device> all = new LinkedHashMap<>();
        devices.forEach((name, d) -> {
            Map<String, Boolean> tabs = new LinkedHashMap<>(d.tabs());
            known.tabsIn.getOrDefault(name, Set.of()).forEach(t -> tabs.putIfAbsent(t, true));
            all.put(
                    name,
                    new Device(
                            name,
                            d.kind(),
                            d.rating(),
                            tabs,
                            d.unused(),
                            d.load(),
                            d.watts(),
                            d.label(),
                            d.canopy(),
                            d.about()));
        });
        return all;
    }

    private static <T> List<T> readAll(List<Node> nodes, java.util.function.Function<Node, @Nullable T> reader) {
        List<T> all = new ArrayList<>();
        for (Node n : nodes) {
            T t = reader.apply(n);
            if (t != null) {
                all.add(t);
            }
        }
        return all;
    }
}
