package org.splicebook.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Way;
import org.splicebook.wiring.Wiring;

/** How a load point is fed and where it returns, from the derivation alone. */
final class WayAnswer {
    private static final int NAMED = 12;

    private WayAnswer() {}

    /**
     * {@return the ways of a load point, or of all load points of a device}
     *
     * @param revision the revision it is of; 0 for a file that is not stored
     * @throws ProblemException when there is no such load point
     */
    static Answer of(Wiring wiring, String loadPoint, long revision, Instant stored) {
        List<LoadPointWiring> meant = wiring.loadPoints().stream()
                .filter(l -> l.id().equals(loadPoint) || l.device().equals(loadPoint))
                .toList();
        if (meant.isEmpty()) {
            throw notFound(wiring, loadPoint);
        }
        House house = wiring.house();
        List<Row> rows =
                joined(meant.stream().flatMap(l -> rows(house, l).stream()).toList());
        Heading heading = new Heading(
                "way",
                "How is " + loadPoint + " fed, and where does it return?",
                wiring.house().id(),
                wiring.house().said(),
                revision,
                stored,
                Map.of("load-point", loadPoint),
                false);
        return new Answer(
                heading,
                rows,
                List.of(Assumption.NO_BURIED_TAP),
                notProven(meant),
                List.of(),
                Caution.forWhat(Leads.TO_A_WIRE));
    }

    private static List<Row> rows(House house, LoadPointWiring l) {
        List<Row> all = new ArrayList<>();
        for (Feed f : l.feeds()) {
            all.add(row(house, l.id() + " from " + f.pole(), f.terminal(), f.sureness(), f.way()));
        }
        for (Return r : l.returns()) {
            all.add(row(house, l.id() + " returns to " + r.bar(), r.terminal(), r.sureness(), r.way()));
        }
        for (Return r : l.grounds()) {
            all.add(row(house, l.id() + " grounded at " + r.bar(), r.terminal(), r.sureness(), r.way()));
        }
        return all;
    }

    private static Row row(House house, String subject, String terminal, Sureness sureness, Way way) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("terminal", List.of(terminal));
        columns.put("holds", holds(sureness));
        Row.Status status = sureness == Sureness.MAY ? Row.Status.POSSIBLE : Row.Status.SHOWN;
        List<Reason> ways = List.of(Reason.of("From " + terminal, way, house));
        return new Row(subject, status, way.basis(), columns, Reason.say(ways), ways);
    }

    /** What is said of several terminals alike is one row. */
    private static List<Row> joined(List<Row> rows) {
        Map<String, Row> joined = new LinkedHashMap<>();
        rows.forEach(r -> joined.merge(r.status() + r.subject() + r.columns().get("holds"), r, WayAnswer::join));
        return joined.values().stream()
                .sorted(Comparator.comparing(Row::status))
                .toList();
    }

    private static Row join(Row a, Row b) {
        Map<String, Object> columns = new LinkedHashMap<>(a.columns());
        columns.put(
                "terminal",
                List.of(a.columns().getOrDefault("terminal", ""), b.columns().getOrDefault("terminal", "")));
        List<Reason> ways = a.ways().isEmpty() ? b.ways() : a.ways();
        return new Row(a.subject(), a.status(), a.basis().weaker(b.basis()), columns, Reason.say(ways), ways);
    }

    private static String holds(Sureness sureness) {
        return switch (sureness) {
            case MUST -> "in every lever position";
            case SHOWN -> "in some lever position";
            case MAY -> "if what is not recorded is so";
        };
    }

    private static List<String> notProven(List<LoadPointWiring> meant) {
        List<String> said = new ArrayList<>();
        for (LoadPointWiring l : meant) {
            if (l.feeds().stream().noneMatch(f -> f.sureness() != Sureness.MAY)) {
                said.add("What feeds " + l.id() + " is not shown. Take it as live until it is tested.");
            }
            if (l.returns().stream().noneMatch(r -> r.sureness() != Sureness.MAY)) {
                said.add("Where " + l.id() + " returns is not shown.");
            }
        }
        said.add(
                "That no other breaker reaches it through something not recorded, where a possible way is listed or a box is not complete.");
        return said;
    }

    private static ProblemException notFound(Wiring wiring, String loadPoint) {
        List<String> ids =
                wiring.loadPoints().stream().map(LoadPointWiring::id).sorted().toList();
        String some =
                String.join(", ", ids.subList(0, Math.min(NAMED, ids.size()))) + (ids.size() > NAMED ? ", ..." : "");
        return new ProblemException(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.NOWHERE,
                "House '" + wiring.house().id() + "' has no load point '" + loadPoint + "'.",
                ids.isEmpty() ? "It has none at all." : "It has " + some + "."));
    }
}
