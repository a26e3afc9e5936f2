package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.CableEnd;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;
import org.splicebook.record.SubBus;
import org.splicebook.record.Unit;

/** Reads panels, their joints aside. */
final class PanelReader {
    private static final Map<String, OvercurrentType> MAIN_KIND =
            Map.of("breaker", OvercurrentType.BREAKER, "fuses", OvercurrentType.FUSE);
    private static final Map<String, String> LEG = Map.of("a", "a", "b", "b", "c", "c");
    private static final int MOST_SPACES = 999;

    private final Known known;
    private final Problems problems;
    private final Set<String> supplies;

    PanelReader(Known known) {
        this.known = known;
        this.problems = known.problems;
        this.supplies = new LinkedHashSet<>(known.sourceNames);
        this.supplies.addAll(known.cableNames);
    }

    /** Reads a panel; cables and sources are known already. */
    Fields read(Node.Entry entry) {
        String name = entry.key().text();
        Fields f = Fields.of(entry.value(), Shapes.keys("panel"), problems);
        BreakerReader breakers = new BreakerReader(problems);
        breakers.read(f.map("breakers"), OvercurrentType.BREAKER);
        breakers.read(f.map("fuses"), OvercurrentType.FUSE);
        Set<String> spaces = breakers.spaces();
        List<String> supply = supply(name, f);
        known.panels.put(
                name,
                new Panel(
                        name,
                        place(f),
                        supply,
                        f.integer("spaces", 0, MOST_SPACES),
                        f.amperes("rating"),
                        main(f, supply),
                        breakers.all(),
                        groups(f.list("ties"), spaces, "space with a breaker"),
                        pullOuts(f, spaces),
                        groups(f.list("exclusive"), exclusiveMembers(breakers, supply), "main, breaker or supply"),
                        legs(f),
                        buses(f, breakers.all().keySet()),
                        f.yesNo("bonded", false),
                        f.amperes("neutral-fuse"),
                        f.quantity("electrode", Unit.Dimension.RESISTANCE, Unit.OHM),
                        List.of(),
                        f.words("complete", Words.COMPLETE),
                        f.about()));
        return f;
    }

    private @Nullable String place(Fields f) {
        Node.Scalar place = f.scalar("place");
        return place != null && known.check(place, known.placeNames, "place") ? place.text() : null;
    }

    private List<String> supply(String panel, Fields f) {
        List<String> supply = new ArrayList<>();
        for (Node.Scalar s : f.oneOrMore("supply")) {
            if (known.panelNames.contains(s.text()) && !supplies.contains(s.text())) {
                problems.error(
                        ProblemKind.DANGLING_NAME,
                        s.at(),
                        s.said() + " is a panel, and a panel feeds another through a cable.",
                        "Name the feeder cable.");
            } else if (known.check(s, supplies, "source or cable")) {
                var cable = known.cables.get(s.text());
                if (cable != null && cable.ends().stream().noneMatch(e -> mayBeIn(e, panel))) {
                    problems.error(
                            ProblemKind.CABLE_NOT_HERE,
                            s.at(),
                            "The cable " + s.text() + " feeds the panel " + panel + " and has no end in it.",
                            "Set one of its ends to " + panel + ".");
                }
                supply.add(s.text());
            }
        }
        return supply;
    }

    static boolean mayBeIn(CableEnd end, String box) {
        return end instanceof CableEnd.At at
                ? at.box().equals(box)
                : end instanceof CableEnd.OneOf of && of.boxes().contains(box);
    }

    private @Nullable MainDisconnect main(Fields panel, List<String> supply) {
        Node n = panel.node("main");
        if (n == null) {
            return null;
        }
        Fields f = Fields.of(n, Shapes.keys("main"), problems);
        Integer poles = f.integer("poles", 1, 4);
        return new MainDisconnect(
                poles == null ? polesOf(supply) : poles,
                f.word("kind", MAIN_KIND, OvercurrentType.BREAKER),
                f.amperes("rating"),
                BreakerReader.protects(f),
                f.word("position", Words.POSITION, org.splicebook.record.Breaker.Position.ON),
                f.about());
    }

    /** The hot poles of what feeds the panel; two where that is not a source of this record. */
    private int polesOf(List<String> supply) {
        Source s = supply.isEmpty() ? null : known.sources.get(supply.get(0));
        return s == null ? 2 : s.system().poles().size();
    }

    private static Set<String> exclusiveMembers(BreakerReader breakers, List<String> supply) {
        Set<String> members = new LinkedHashSet<>(breakers.all().keySet());
        members.add("main");
        members.addAll(supply);
        return members;
    }

    private List<List<String>> groups(List<Node> groups, Set<String> among, String what) {
        List<List<String>> all = new ArrayList<>();
        for (Node group : groups) {
            all.add(members(group, among, what));
        }
        return all;
    }

    private List<String> members(Node group, Set<String> among, String what) {
        List<String> members = new ArrayList<>();
        for (Node.Scalar s : Values.scalars(group, problems)) {
            if (known.check(s, among, what)) {
                members.add(s.text());
            }
        }
        return members;
    }

    private Map<String, List<String>> pullOuts(Fields f, Set<String> spaces) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        if (f.node("pull-outs") instanceof Node.Entries map) {
            for (Node.Entry e : map.entries()) {
                String name = Values.name(e.key(), problems);
                if (name != null) {
                    all.put(name, members(e.value(), spaces, "space with a fuse"));
                }
            }
        } else {
            for (Node group : f.list("pull-outs")) {
                all.put(String.valueOf(all.size() + 1), members(group, spaces, "space with a fuse"));
            }
        }
        return all;
    }

    private Map<String, String> legs(Fields f) {
        Map<String, String> legs = new LinkedHashMap<>();
        for (Node.Entry e : f.map("legs")) {
            Node.Scalar leg = Values.scalar(e.value(), problems);
            String letter = leg == null ? null : Values.word(leg, LEG, problems);
            if (letter != null && BreakerReader.isSpace(e.key(), problems)) {
                legs.put(e.key().text(), letter);
            }
        }
        return legs;
    }

    private Map<String, SubBus> buses(Fields panel, Set<String> breakers) {
        Map<String, SubBus> buses = new LinkedHashMap<>();
        for (Node.Entry e : panel.map("buses")) {
            String name = Values.name(e.key(), problems);
            Fields f = Fields.of(e.value(), Shapes.keys("bus"), problems);
            f.need("spaces", "Say which spaces are on it: spaces: 9-12.");
            Node.Scalar fedBy = f.scalar("fed-by");
            boolean found = fedBy != null && known.check(fedBy, breakers, "breaker");
            if (name != null) {
                buses.put(
                        name, new SubBus(name, busSpaces(f), found && fedBy != null ? fedBy.text() : null, f.about()));
            }
        }
        return buses;
    }

    private Set<String> busSpaces(Fields f) {
        Set<String> spaces = new LinkedHashSet<>();
        for (Node.Scalar s : f.oneOrMore("spaces")) {
            if (s.text().matches("[0-9]{1,3}-[0-9]{1,3}")) {
                String[] range = s.text().split("-", 2);
                for (int i = Integer.parseInt(range[0]); i <= Integer.parseInt(range[1]); i++) {
                    spaces.add(String.valueOf(i));
                }
            } else if (BreakerReader.isSpace(s, problems)) {
                spaces.add(s.text());
            }
        }
        return spaces;
    }
}
