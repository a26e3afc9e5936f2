package org.splicebook.housefile;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Acceptance;
import org.splicebook.record.Basis;
import org.splicebook.record.CodeBook;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.TestResult;

/** Writes a house as a house file. Reading it again gives the same house. */
public final class HouseWriter {
    /** Keys of what was found in one house and says nothing of another. */
    private static final Set<String> ONLY_THERE = Set.of("basis", "complete", "unused", "permit");

    private HouseWriter() {}

    /** {@return the house file, in YAML} */
    public static String write(House house) {
        return YamlWriter.write(tree(house));
    }

    /**
     * {@return the house file of another house that is taken to be the same: everything in it is assumed, nothing counts as complete or as
     * seen unused, and nothing that was observed, tested, permitted or accepted goes with it}
     */
    public static String copy(House house, String id, @Nullable String name) {
        House bare = house.withSightings(List.of()).withAccepted(List.of()).withId(id);
        Node.Entries whole = tree(name == null ? bare : bare.withName(name));
        List<Node.Entry> kept = new ArrayList<>();
        for (Node.Entry e : whole.entries()) {
            String key = e.key().text();
            if (key.equals("basis")) {
                kept.add(new Node.Entry(e.key(), Tree.scalar(Basis.ASSUMED.word())));
            } else if (!key.equals("tests") && !ONLY_THERE.contains(key)) {
                kept.add(new Node.Entry(e.key(), copied(e.value())));
            }
        }
        return YamlWriter.write(new Node.Entries(kept, whole.at()));
    }

    private static Node copied(Node n) {
        if (n instanceof Node.Items list) {
            return new Node.Items(list.items().stream().map(HouseWriter::copied).toList(), list.at());
        }
        if (n instanceof Node.Entries map) {
            return new Node.Entries(
                    map.entries().stream()
                            .filter(e -> e.value() instanceof Node.Entries
                                    || !ONLY_THERE.contains(e.key().text()))
                            .map(e -> new Node.Entry(e.key(), copied(e.value())))
                            .toList(),
                    map.at());
        }
        return n;
    }

    static Node.Entries tree(House house) {
        Tree top = new Tree()
                .put("splicebook", "1")
                .put("house", house.id())
                .put("name", house.name())
                .put("built", house.built() == null ? null : house.built().toString())
                .put("basis", house.basis().word())
                .put("code", code(house.code()))
                .put("area", house.area())
                .putList("complete", words(house.complete()))
                .put("since", house.about().since())
                .put("before", house.about().before())
                .put("permit", house.about().permit())
                .put("note", house.about().note())
                .putMap("sources", house.sources(), HouseWriter::source)
                .putMap("places", house.places(), HouseWriter::place)
                .putMap("panels", house.panels(), PanelWriter::panel)
                .putMap("cables", house.cables(), CableWriter::cable)
                .putMap("boxes", house.boxes(), BoxWriter::box)
                .putList("sightings", house.sightings(), SightingWriter::sighting)
                .putList("tests", house.tests(), HouseWriter::test)
                .putList("accepted", house.accepted(), HouseWriter::acceptance);
        return top.node();
    }

    static List<String> words(Set<Complete> complete) {
        return complete.stream().map(Complete::word).collect(Collectors.toList());
    }

    /** {@return what is wholly listed; an empty list is said too, since it is not the house's default} */
    static @Nullable Node complete(@Nullable Set<Complete> complete) {
        return complete == null ? null : Tree.list(words(complete));
    }

    private static @Nullable Node code(@Nullable CodeBook code) {
        return code == null
                ? null
                : new Tree()
                        .put("country", code.country())
                        .put("edition", code.edition())
                        .put("note", code.note())
                        .node();
    }

    static Node source(Source s) {
        return new Tree()
                .putUnless(s.kind() == SourceKind.SERVICE, "kind", s.kind().word())
                .put("system", s.system().word())
                .put("rating", s.rating())
                .put("bond", s.bond())
                .put("at", s.at())
                .put("from", s.from())
                .put("volts", s.volts())
                .put("transformer", transformer(s.transformer()))
                .put("drop", drop(s.drop()))
                .about(s.about())
                .node();
    }

    private static @Nullable Node transformer(Source.@Nullable Transformer t) {
        return t == null
                ? null
                : new Tree()
                        .put("rating", t.rating())
                        .put("percent", t.percent() == null ? null : plain(t.percent()))
                        .node();
    }

    private static String plain(double number) {
        return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
    }

    private static @Nullable Node drop(Source.@Nullable Drop d) {
        return d == null
                ? null
                : new Tree()
                        .put("length", d.length())
                        .put("size", d.size())
                        .put("material", d.material() == null ? null : Words.word(d.material()))
                        .node();
    }

    private static Node place(Place p) {
        return new Tree()
                .put("name", p.title())
                .put("kind", p.kind().word())
                .put("finished", p.finished() == null ? null : Tree.yesNo(p.finished()))
                .put("level", p.level())
                .about(p.about())
                .node();
    }

    private static Node acceptance(Acceptance a) {
        return new Tree()
                .put("finding", a.finding())
                .put("certainty", a.certainty())
                .put("said", a.said())
                .put("reason", a.reason())
                .put("by", a.by())
                .put("date", a.date())
                .node();
    }

    private static Node test(TestResult t) {
        return new Tree()
                .put("id", t.id())
                .put("date", t.date())
                .put("what", t.what())
                .put("device", t.device())
                .put("result", t.result())
                .put("by", t.by())
                .put("note", t.note())
                .node();
    }
}
