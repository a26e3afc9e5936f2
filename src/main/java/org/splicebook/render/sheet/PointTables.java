package org.splicebook.render.sheet;

import java.util.List;
import java.util.Objects;
import org.splicebook.answer.SightingWords;
import org.splicebook.record.Basis;
import org.splicebook.record.CableEnd;
import org.splicebook.record.Place;
import org.splicebook.record.Wire;
import org.splicebook.render.sheet.Sheet.Block;
import org.splicebook.render.sheet.Sheet.Grid;
import org.splicebook.render.sheet.Sheet.Title;
import org.splicebook.render.sheet.Sheet.Words;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/** Tables of what a house has, and one to write readings in. */
final class PointTables {
    private PointTables() {}

    static List<Block> readings(Source s) {
        return List.of(
                new Grid(
                        List.of("name", "date", "pass", "voltmeter, and the live point it was proved on"),
                        List.of(List.of("", "", "", ""))),
                new Words(
                        "Volts need a meter that touches metal; a contactless probe tells of nothing here. Lit, or not, needs a lamp that"
                                + " was lit before the breaker was thrown and is lit again after. What was not tried stays empty."),
                new Grid(
                        List.of(
                                "load point",
                                "place",
                                "breaker, as recorded",
                                "hot to neutral, V",
                                "hot to ground, V",
                                "neutral to ground, V",
                                "thrown breaker",
                                "lit before, during, after"),
                        s.wiring().loadPoints().stream()
                                .map(l -> List.of(l.id(), place(s, l), feeds(l), "", "", "", "", ""))
                                .toList()),
                new Words(
                        "All of it is typed back in on one page: Readings from the sheet, line by line under the name of the load point."));
    }

    static List<Block> points(Source s) {
        return List.of(
                new Title("Load points"),
                new Grid(
                        List.of("load point", "place", "box", "breaker", "protection", "ground", "basis"),
                        s.wiring().loadPoints().stream()
                                .map(l -> List.of(
                                        l.id(),
                                        place(s, l),
                                        l.box(),
                                        feeds(l),
                                        protections(l),
                                        ground(l),
                                        l.feeds().stream()
                                                .map(f -> f.way().basis())
                                                .reduce(Basis::weaker)
                                                .map(Basis::word)
                                                .orElse("–")))
                                .toList()));
    }

    static List<Block> cables(Source s) {
        return List.of(
                new Title("Cables"),
                new Grid(
                        List.of("cable", "kind", "wires", "ends"),
                        s.house().cables().values().stream()
                                .map(c -> List.of(
                                        c.name(),
                                        c.kind().word(),
                                        Sheets.dash(String.join(
                                                ", ",
                                                c.wires().stream()
                                                        .map(Wire::name)
                                                        .toList())),
                                        Sheets.dash(String.join(
                                                ", ",
                                                c.ends().stream()
                                                        .map(PointTables::end)
                                                        .toList()))))
                                .toList()));
    }

    private static String end(CableEnd e) {
        return e instanceof CableEnd.At at
                ? at.box()
                : e instanceof CableEnd.OneOf o ? "one of " + String.join(" or ", o.boxes()) : "not found";
    }

    static List<Block> sightings(Source s) {
        return s.sightings().isEmpty()
                ? List.of()
                : List.of(
                        new Title("Sightings"),
                        new Grid(
                                List.of("what was seen", "with what", "by"),
                                s.sightings().stream()
                                        .map(x -> List.of(
                                                SightingWords.dated(x),
                                                Objects.requireNonNullElse(x.instrument(), "not told"),
                                                Objects.requireNonNullElse(x.by(), "not told")))
                                        .toList()));
    }

    /** Which breakers feed it; one that only may is told as possible. */
    private static String feeds(LoadPointWiring l) {
        List<String> all = l.feeds().stream()
                .map(f -> f.breaker() + (f.sureness() == Sureness.MAY ? " (possible)" : ""))
                .distinct()
                .toList();
        return all.isEmpty() ? "not known" : String.join(", ", all);
    }

    private static String protections(LoadPointWiring l) {
        return Sheets.dash(String.join(
                ", ",
                l.protections().stream()
                        .map(p -> p.function().word() + " by " + p.by().name()
                                + (p.sureness() == Sureness.MUST ? "" : " (not always)"))
                        .distinct()
                        .toList()));
    }

    private static String ground(LoadPointWiring l) {
        return l.grounds().stream()
                .map(g -> g.sureness())
                .min(Sureness::compareTo)
                .map(g -> switch (g) {
                    case MUST -> "yes, as recorded";
                    case SHOWN -> "yes, not in every lever position";
                    case MAY -> "possible: test";
                })
                .orElse("none, as recorded");
    }

    static String place(Source s, LoadPointWiring l) {
        Place p = l.place() == null ? null : s.house().places().get(l.place());
        return p == null ? "place not recorded" : p.said();
    }
}
