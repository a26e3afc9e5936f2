package org.splicebook.property;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/** Load points whose current comes from one part and returns to another: no breaker sees all of it. */
final class NeutralAnswer {
    private static final String NOT_RECORDED = "not recorded";

    /** Where current comes from, or returns to, and whether that is so in every completion. */
    private record Origin(String part, boolean isSure, Basis basis) {}

    private NeutralAnswer() {}

    static Reply of(Joined joined, PropertyQuestions.Asked asked) {
        List<Row> rows = new ArrayList<>();
        List<String> notProven = new ArrayList<>();
        for (String part : MeterAnswer.parts(joined, asked)) {
            joined.wiring(part)
                    .ifPresentOrElse(
                            w -> w.loadPoints().forEach(p -> row(joined, part, p, rows)),
                            () -> notProven.add("That none crosses in " + part + ": its record is not stored."));
        }
        rows.sort(Comparator.comparing(Row::status).thenComparing(Row::subject));
        if (!joined.property().linksComplete()) {
            notProven.add(
                    "That no neutral crosses where no link is listed: the property does not say that its links are complete.");
        }
        return new Answer(
                asked.heading(),
                rows.isEmpty()
                        ? "The records show no neutral across units. That does not mean that there is none."
                        : "",
                rows,
                List.of(),
                List.of(Assumption.NO_BURIED_TAP, "Parts touch only over the links that are listed."),
                notProven,
                rows.isEmpty()
                        ? List.of()
                        : List.of(
                                "Put a clamp round all conductors of the feed together, at the boundary, with only that load"
                                        + " on: what does not return there reads as current."),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static void row(Joined joined, String part, LoadPointWiring p, List<Row> rows) {
        Map<String, Origin> hots = new TreeMap<>();
        for (Feed f : p.feeds()) {
            Set<String> sources = GoesDark.sources(f);
            (sources.isEmpty() ? Set.of("") : sources).forEach(s -> put(hots, joined, part, s, f.sureness(), f.way()));
        }
        Map<String, Origin> neutrals = new TreeMap<>();
        for (Return r : p.returns()) {
            if (r.over() == Conductor.NEUTRAL) {
                put(neutrals, joined, part, source(joined, part, r), r.sureness(), r.way());
            }
        }
        if (hots.isEmpty() || neutrals.isEmpty()) {
            return;
        }
        Set<String> fedFrom = origins(hots);
        for (Map.Entry<String, Origin> n : neutrals.entrySet()) {
            Origin origin = n.getValue();
            if (fedFrom.contains(origin.part())) {
                continue;
            }
            boolean isSure = origin.isSure()
                    && !origin.part().equals(NOT_RECORDED)
                    && hots.values().stream()
                            .allMatch(o -> o.isSure() && !o.part().equals(NOT_RECORDED));
            Map<String, Object> columns = new LinkedHashMap<>();
            columns.put("part", joined.part(part).said());
            columns.put("place", OutageAnswer.place(joined, part, p.id()));
            columns.put(
                    "fed from",
                    hots.entrySet().stream()
                            .map(e -> e.getValue().part() + " (" + e.getKey() + ")")
                            .collect(Collectors.joining(", ")));
            columns.put("returns over", origin.part() + " (" + n.getKey() + ")");
            Basis basis = hots.values().stream().map(Origin::basis).reduce(origin.basis(), Basis::weaker);
            rows.add(new Row(
                    part + ":" + p.id(), isSure ? Row.Status.SHOWN : Row.Status.POSSIBLE, basis, columns, List.of()));
        }
    }

    private static Set<String> origins(Map<String, Origin> of) {
        return of.values().stream().map(Origin::part).collect(Collectors.toCollection(TreeSet::new));
    }

    private static void put(
            Map<String, Origin> all, Joined joined, String part, String source, Sureness sureness, Way way) {
        Set<String> origins = origin(joined, part, source);
        boolean isSure = sureness != Sureness.MAY && origins.size() == 1;
        Basis basis = joined.into(part, source).stream()
                .map(l -> joined.property().basis(l))
                .reduce(way.basis(), Basis::weaker);
        for (String o : origins) {
            String key = origins.size() == 1 ? source : source + " from " + o;
            all.merge(key, new Origin(o, isSure, basis), (a, b) -> a.isSure() ? a : b);
        }
    }

    /** {@return the parts that a source comes from: its own where it is the part's own service} */
    private static Set<String> origin(Joined joined, String part, String source) {
        List<Property.Link> links = joined.into(part, source);
        if (!links.isEmpty()) {
            return links.stream().map(Property.Link::from).collect(Collectors.toCollection(TreeSet::new));
        }
        SourceKind kind = joined.house(part)
                .map(House::sources)
                .filter(s -> s.containsKey(source))
                .map(s -> s.get(source))
                .map(Source::kind)
                .orElse(SourceKind.NEIGHBOUR);
        boolean isOutside = kind == SourceKind.RISER || kind == SourceKind.NEIGHBOUR;
        return Set.of(isOutside ? NOT_RECORDED : part);
    }

    /** {@return the source that a return ends at; empty where none is reached} */
    private static String source(Joined joined, String part, Return r) {
        List<Way.Hop> hops = r.way().hops();
        for (int i = hops.size() - 1; i >= 0; i--) {
            if (hops.get(i).thing().kind() == ThingKind.SOURCE) {
                return hops.get(i).thing().name();
            }
        }
        String before = r.bar().substring(0, Math.max(0, r.bar().lastIndexOf('.')));
        return joined.house(part).filter(h -> h.sources().containsKey(before)).isPresent() ? before : "";
    }
}
