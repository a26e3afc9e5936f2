package org.splicebook.render;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;

/** A reply as text for people: the outcome first, then the reasons, then the cautions. */
public final class ReplyText {
    /** Marks what comes from a draft. */
    public static final String DRAFT = "DRAFT: a proposed change, not the house as it stands.";

    /** Stands above the cautions. */
    public static final String CAUTIONS = "Before a hand goes near a wire";

    /** More of what is excluded is told by name alone. */
    private static final int MOST_EXCLUDED = 8;

    /** What all of so many rows say alike, in more characters than that, is told once, above them. */
    private static final int MANY_ROWS = 4;

    private static final int LONG_CELL = 24;

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private ReplyText(int width) {
        this.width = width;
    }

    /** {@return the reply in lines of at most that width, each ended by a newline} */
    public static String write(Reply reply, int width) {
        ReplyText text = new ReplyText(width);
        text.heading(reply.heading());
        if (reply instanceof Answer a) {
            text.answer(a);
        } else if (reply instanceof Listing l) {
            text.listing(l);
        }
        return String.join("\n", text.lines) + "\n";
    }

    /** {@return heading, outcome and the rows shown or possible; the rest, the reasons and the cautions have to stand elsewhere} */
    public static String brief(Reply reply, int width) {
        ReplyText text = new ReplyText(width);
        text.heading(reply.heading());
        if (reply instanceof Answer a) {
            text.outcomeAndRows(a, List.of(Row.Status.SHOWN, Row.Status.POSSIBLE));
        } else if (reply instanceof Listing l) {
            text.cells(l);
        }
        return String.join("\n", text.lines) + "\n";
    }

    /** {@return what was assumed and the cautions, with their titles} */
    public static String care(List<String> assumed, List<String> cautions, int width) {
        ReplyText text = new ReplyText(width);
        text.bullets("Assumed", assumed);
        text.bullets(CAUTIONS, cautions);
        return String.join("\n", text.lines) + "\n";
    }

    private void heading(Heading h) {
        lines.addAll(Lines.wrap(h.words(), width));
        if (!h.house().isEmpty()) {
            lines.addAll(Lines.wrap(h.houseName() + " (" + h.house() + ")" + revision(h), width));
        }
        if (h.draft()) {
            lines.addAll(Lines.wrap(DRAFT, width));
        }
    }

    private static String revision(Heading h) {
        return h.revision() == 0
                ? ""
                : ", revision " + h.revision() + " of "
                        + h.stored().atZone(ZoneOffset.UTC).toLocalDate();
    }

    private void outcomeAndRows(Answer a, List<Row.Status> statuses) {
        lines.add("");
        lines.addAll(Lines.wrap(a.outcome(), width));
        statuses.forEach(status -> rows(status, a.rows(status)));
    }

    private void answer(Answer a) {
        outcomeAndRows(a, List.of(Row.Status.SHOWN, Row.Status.POSSIBLE));
        a.sections().forEach(this::section);
        rows(Row.Status.EXCLUDED, a.rows(Row.Status.EXCLUDED));
        why(a.rows());
        bullets("Assumed", a.assumed());
        bullets("Not proven by the given facts", a.notProven());
        bullets("What would settle it", a.wouldSettle());
        bullets(CAUTIONS, a.cautions());
    }

    /** {@return the title of one part of an answer} */
    public static String title(Row.Status status) {
        return switch (status) {
            case SHOWN -> "Shown by the record";
            case POSSIBLE -> "Possible: neither shown nor excluded";
            case EXCLUDED -> "Excluded by what is marked complete, or by tests";
        };
    }

    private void rows(Row.Status status, List<Row> rows) {
        if (rows.isEmpty()) {
            return;
        }
        title(title(status));
        if (status == Row.Status.EXCLUDED && rows.size() > MOST_EXCLUDED) {
            String names =
                    String.join(", ", rows.stream().map(Row::subject).distinct().toList());
            lines.addAll(Lines.wrap(names + ".", width));
            return;
        }
        Set<String> names = new LinkedHashSet<>();
        rows.forEach(r -> names.addAll(r.columns().keySet()));
        toldOnce(rows, names).forEach(n -> {
            lines.addAll(Lines.hung(n + ": ", cell(rows.get(0), n), width));
            names.remove(n);
        });
        List<String> columns = new ArrayList<>(List.of("what"));
        columns.addAll(names);
        columns.add("basis");
        lines.addAll(new Table(columns, alike(rows, r -> cells(r, names))).lines(width));
    }

    /** What is said alike of several subjects is said once, their names before it. */
    private static List<List<String>> alike(List<Row> rows, Function<Row, List<String>> said) {
        Map<List<String>, Set<String>> subjects = new LinkedHashMap<>();
        rows.forEach(r -> subjects.computeIfAbsent(said.apply(r), k -> new LinkedHashSet<>())
                .add(r.subject()));
        List<List<String>> all = new ArrayList<>();
        subjects.forEach((rest, names) -> {
            List<String> cells = new ArrayList<>(List.of(String.join(", ", names)));
            cells.addAll(rest);
            all.add(cells);
        });
        return all;
    }

    private static List<String> toldOnce(List<Row> rows, Set<String> names) {
        if (rows.size() < MANY_ROWS) {
            return List.of();
        }
        return names.stream()
                .filter(n -> Lines.length(cell(rows.get(0), n)) > LONG_CELL)
                .filter(n -> rows.stream().map(r -> cell(r, n)).distinct().count() == 1)
                .toList();
    }

    private static String cell(Row r, String name) {
        return Table.cell(r.columns().getOrDefault(name, ""));
    }

    private static List<String> cells(Row r, Set<String> names) {
        List<String> cells = new ArrayList<>();
        names.forEach(n -> cells.add(cell(r, n)));
        cells.add(r.basis().word());
        return cells;
    }

    private void why(List<Row> rows) {
        List<Row> reasoned = rows.stream().filter(r -> !r.why().isEmpty()).toList();
        if (reasoned.isEmpty()) {
            return;
        }
        title("Why");
        for (List<String> told : alike(reasoned, Row::why)) {
            lines.addAll(Lines.wrap(told.get(0) + ":", width));
            int step = 1;
            for (String line : told.subList(1, told.size())) {
                if (line.startsWith("From ") || line.startsWith("and ")) {
                    lines.addAll(Lines.hung("  ", line, width));
                    step = 1;
                } else {
                    lines.addAll(Lines.hung("  " + step++ + ". ", line, width));
                }
            }
        }
    }

    private void listing(Listing l) {
        cells(l);
        bullets(CAUTIONS, Caution.forWhat(Leads.TO_A_SWITCH));
    }

    private void cells(Listing l) {
        lines.add("");
        if (l.rows().isEmpty()) {
            lines.addAll(Lines.wrap("The record lists nothing here. That does not mean that nothing is there.", width));
        } else {
            List<List<String>> cells = l.rows().stream()
                    .map(r -> r.stream().map(Table::cell).toList())
                    .toList();
            lines.addAll(new Table(l.columns(), cells).lines(width));
            lines.add("");
            lines.add(l.rows().size() == 1 ? "1 row." : l.rows().size() + " rows.");
        }
    }

    private void bullets(String title, List<String> all) {
        if (!all.isEmpty()) {
            title(title);
            all.forEach(s -> lines.addAll(Lines.bullet(s, width)));
        }
    }

    private void section(Answer.Section s) {
        if (s.lines().isEmpty()) {
            return;
        }
        title(s.title());
        int step = 1;
        for (String line : s.lines()) {
            lines.addAll(s.isInOrder() ? Lines.hung(step++ + ". ", line, width) : Lines.bullet(line, width));
        }
    }

    private void title(String title) {
        lines.add("");
        lines.addAll(Lines.wrap(title, width));
    }
}
