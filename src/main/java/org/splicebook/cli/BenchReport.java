package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.lang.management.ManagementFactory;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.splicebook.render.Json;
import org.splicebook.render.Table;
import org.splicebook.survey.passes.SurveyFigures;

/** What was measured, on what, and how each figure can be measured again. */
final class BenchReport {
    /** A figure that stands by itself. */
    record Figure(String what, Timings timings, String repeat) {}

    /** A number that is no time. */
    record Count(String what, double value, String unit, String repeat) {}

    /**
     * A question at the API, with the empty question asked in turn with it.
     *
     * @param houses how many houses the store held
     * @param timings asked again and again, so told from what is kept where the house does not change
     * @param anew first asked after the house was stored again, so worked out and read anew
     */
    record Asked(
            String question,
            Map<String, String> parameters,
            int houses,
            Timings timings,
            Timings empty,
            Timings anew,
            String repeat) {
        double timesEmpty() {
            return timings.median() / empty.median();
        }
    }

    private final String version;
    private final Instant date = Instant.now().truncatedTo(ChronoUnit.SECONDS);
    private final double loadBefore = load();
    final List<Figure> figures = new ArrayList<>();
    final List<Count> counts = new ArrayList<>();
    final List<Asked> asked = new ArrayList<>();
    final List<SurveyFigures.Row> surveys = new ArrayList<>();
    /** Questions that were not asked, and why. */
    final List<String> skipped = new ArrayList<>();
    /** Questions that were refused, and why. */
    final List<String> failed = new ArrayList<>();

    BenchReport(String version) {
        this.version = version;
    }

    private static double load() {
        return ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
    }

    /** {@return how many times the time alone it took among many houses, where both were measured} */
    OptionalDouble growth(Asked among) {
        return asked.stream()
                .filter(a ->
                        a.houses() == 1 && among.houses() > 1 && a.question().equals(among.question()))
                .mapToDouble(alone -> among.timings().median() / alone.timings().median())
                .findFirst();
    }

    ObjectNode json() {
        ObjectNode o = Json.object();
        o.put("splicebook", version);
        o.put("date", date.toString());
        o.put("java", Runtime.version().toString());
        o.put("processors", Runtime.getRuntime().availableProcessors());
        o.put("load-before", loadBefore);
        o.put("load-after", load());
        o.set("figures", Json.list(figures, f -> {
            ObjectNode n = timings(Json.object().put("what", f.what()), "", f.timings());
            return n.put("repeat", f.repeat());
        }));
        o.set(
                "counts",
                Json.list(
                        counts,
                        c -> Json.object()
                                .put("what", c.what())
                                .put("value", c.value())
                                .put("unit", c.unit())
                                .put("repeat", c.repeat())));
        o.set("questions", Json.list(asked, this::json));
        o.set("surveys", Json.list(surveys, BenchReport::json));
        o.set("skipped", Json.tree(skipped));
        o.set("failed", Json.tree(failed));
        return o;
    }

    private ObjectNode json(Asked a) {
        ObjectNode n = Json.object().put("question", a.question());
        n.set("parameters", Json.tree(a.parameters()));
        n.put("houses", a.houses());
        timings(n, "", a.timings());
        timings(n, "empty-", a.empty());
        timings(n, "anew-", a.anew());
        n.put("times-empty", a.timesEmpty());
        growth(a).ifPresent(g -> n.put("growth", g));
        return n.put("repeat", a.repeat());
    }

    private static ObjectNode json(SurveyFigures.Row r) {
        ObjectNode n = Json.object()
                .put("houses", r.houses().name().toLowerCase(Locale.ROOT))
                .put("breakers", r.breakers())
                .put("points", r.points())
                .put("ratio", r.ratio());
        n.set(
                "ways",
                Json.list(
                        r.ways(),
                        w -> Json.object()
                                .put("way", w.name())
                                .put("passes", w.passes())
                                .put("minutes", w.minutes())
                                .put("right", w.right())));
        return n.put("repeat", "splicebook bench --only survey");
    }

    private static ObjectNode timings(ObjectNode n, String prefix, Timings t) {
        return n.put(prefix + "count", t.count())
                .put(prefix + "median-ms", t.median())
                .put(prefix + "p99-ms", t.p99())
                .put(prefix + "least-ms", t.least())
                .put(prefix + "most-ms", t.most());
    }

    List<String> lines(int width) {
        List<String> lines = new ArrayList<>();
        lines.add("splicebook " + version + ", " + date + ", Java " + Runtime.version() + ", "
                + Runtime.getRuntime().availableProcessors() + " processors, load average " + said(loadBefore)
                + " before and " + said(load()) + " after. All times are milliseconds.");
        if (!counts.isEmpty()) {
            lines.add("");
            lines.addAll(new Table(
                            List.of("counted", "value", "repeat with"),
                            counts.stream()
                                    .map(c -> List.of(c.what(), counted(c), c.repeat()))
                                    .toList())
                    .lines(width));
        }
        if (!figures.isEmpty()) {
            lines.add("");
            lines.addAll(new Table(
                            List.of("figure", "median", "p99", "least", "most", "runs", "repeat with"),
                            figures.stream().map(BenchReport::row).toList())
                    .lines(width));
        }
        if (!surveys.isEmpty()) {
            surveys(lines, width);
        }
        asked.stream().map(Asked::houses).distinct().forEach(n -> questions(lines, n, width));
        skipped.forEach(s -> lines.add("Not asked: " + s));
        failed.forEach(f -> lines.add("Failed: " + f));
        return lines;
    }

    private void surveys(List<String> lines, int width) {
        lines.add("");
        lines.add(
                "Surveys walked in made-up houses: passes / minutes / % of points right, by passes chosen by what they tell, coded, one"
                        + " breaker at a time. The ratio is of minutes, chosen over one at a time. plain: every reading right; misread: 2 % wrong;"
                        + " again: that, and 6 % of points that mislead each time; subpanel: a third of the breakers in one. Repeat with:"
                        + " splicebook bench --only survey");
        List<List<String>> rows = new ArrayList<>();
        for (SurveyFigures.Row r : surveys) {
            List<String> row = new ArrayList<>(List.of(
                    r.houses().name().toLowerCase(Locale.ROOT),
                    String.valueOf(r.breakers()),
                    String.valueOf(r.points())));
            r.ways()
                    .forEach(w -> row.add(String.format(
                            Locale.ROOT, "%.1f / %.0f / %.1f", w.passes(), w.minutes(), 100 * w.right())));
            row.add(said(r.ratio()));
            rows.add(row);
        }
        lines.addAll(new Table(List.of("houses", "breakers", "points", "chosen", "coded", "singly", "ratio"), rows)
                .lines(width));
    }

    private static List<String> row(Figure f) {
        Timings t = f.timings();
        return List.of(
                f.what(),
                said(t.median()),
                said(t.p99()),
                said(t.least()),
                said(t.most()),
                String.valueOf(t.count()),
                f.repeat());
    }

    private void questions(List<String> lines, int houses, int width) {
        List<Asked> these = asked.stream().filter(a -> a.houses() == houses).toList();
        lines.add("");
        lines.add(
                houses == 1
                        ? "Questions at the API, one house. Empty is the round trip of RETURN 1 as a question at the same"
                                + " API, asked in turn with each. After a change is the first time that it is asked after"
                                + " the house was stored again; later times tell what was kept."
                        : "The same among " + houses + " houses. Growth is the median beside that of one house.");
        lines.addAll(new Table(
                        List.of(
                                "question",
                                "median",
                                "p99",
                                "empty",
                                "times empty",
                                "after a change",
                                houses == 1 ? "calls" : "growth"),
                        these.stream().map(a -> row(a, houses)).toList())
                .lines(width));
        Asked first = these.get(0);
        lines.add("Repeat a line with: " + first.repeat().replace("--question " + first.question(), "--question ID"));
    }

    private List<String> row(Asked a, int houses) {
        return List.of(
                a.question(),
                said(a.timings().median()),
                said(a.timings().p99()),
                said(a.empty().median()),
                said(a.timesEmpty()),
                said(a.anew().median()),
                houses == 1
                        ? String.valueOf(a.timings().count())
                        : growth(a).stream()
                                .mapToObj(BenchReport::said)
                                .findFirst()
                                .orElse("not measured"));
    }

    private static String counted(Count c) {
        String number = c.value() >= 1000 ? String.format(Locale.ROOT, "%,.0f", c.value()) : said(c.value());
        return c.unit().isEmpty() ? number : number + " " + c.unit();
    }

    private static String said(double value) {
        return String.format(Locale.ROOT, value >= 100 ? "%.0f" : value >= 10 ? "%.1f" : "%.2f", value);
    }
}
