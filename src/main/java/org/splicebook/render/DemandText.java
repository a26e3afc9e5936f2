package org.splicebook.render;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Dwelling;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.WhatFits;

/** What a dwelling demands of its service, as text for people: the table of methods and editions, then each calculation line by line. */
public final class DemandText {
    /** Stands beside every calculation. */
    public static final String ADVICE =
            "A calculation to be checked by whoever signs for it: the local code, the utility and the inspector decide.";

    private final int width;
    private final List<String> lines = new ArrayList<>();

    private DemandText(int width) {
        this.width = width;
    }

    /**
     * {@return a study, in lines of at most that width}
     *
     * @param house what people call the house
     * @param allLines whether to print the lines of every edition; else those of the edition that the study is told by
     */
    public static String write(String house, DemandStudy study, boolean allLines, int width) {
        DemandText text = new DemandText(width);
        text.dwelling(house, study.dwelling());
        text.bullets(
                "Still asked; until it is told nothing is said to fit",
                study.dwelling().asked());
        text.bullets("Taken to be so", study.dwelling().assumed());
        text.methods(study);
        study.demands().stream()
                .filter(d -> allLines || d.edition() == study.edition())
                .forEach(text::sheet);
        text.fits(study);
        text.bullets(ReplyText.CAUTIONS, Caution.forWhat(Leads.TO_A_WIRE));
        text.lines.addAll(Lines.bullet(ADVICE, width));
        return String.join("\n", text.lines) + "\n";
    }

    private void dwelling(String house, Dwelling d) {
        say("What " + house + " demands of its service, in volt-amperes at " + number(d.volts())
                + " V between legs, held against "
                + (d.rating() == null ? "no rating (none is known)" : number(d.rating()) + " A") + ".");
        say("Floor area " + (d.area() == null ? "not known" : number(d.area()) + " ft2") + ".");
        title("What is counted beside");
        table(
                List.of("load", "kind", "VA"),
                d.loads().stream()
                        .map(l -> List.of(
                                l.name() + (l.isNew() ? " (new)" : ""), l.kind().word(), size(l)))
                        .toList());
    }

    private static String size(DemandLoad l) {
        String plate = l.va() == null ? "not known" : number(l.va());
        return l.setPoint() == null ? plate : plate + ", held to " + number(l.setPoint());
    }

    private void methods(DemandStudy study) {
        List<Integer> editions = study.demands().stream()
                .map(Demand::edition)
                .distinct()
                .sorted()
                .toList();
        Map<String, Map<Integer, Demand>> rows = new LinkedHashMap<>();
        study.demands()
                .forEach(d -> rows.computeIfAbsent(name(d), n -> new LinkedHashMap<>())
                        .put(d.edition(), d));
        title("By method and edition");
        table(
                Stream.concat(Stream.of("method"), editions.stream().map(String::valueOf))
                        .toList(),
                rows.entrySet().stream()
                        .map(r -> Stream.concat(
                                        Stream.of(r.getKey()),
                                        editions.stream()
                                                .map(e -> cell(r.getValue().get(e))))
                                .toList())
                        .toList());
    }

    private static String cell(@Nullable Demand d) {
        return d == null ? "-" : amps(d) + ", " + d.verdict().word();
    }

    /** {@return the amperes, and what they are at least where that is less} */
    static String amps(Demand d) {
        String said = exact(d.amps()) + " A";
        return !d.asked().isEmpty() && d.least() < d.amps() - 0.005
                ? said + " by what is known (at least " + exact(d.least()) + ")"
                : d.asked().isEmpty() ? said : "at least " + said;
    }

    private static String name(Demand d) {
        return d.method().word() + (d.reading().isEmpty() ? "" : ": " + d.reading());
    }

    private void sheet(Demand d) {
        title(name(d) + ", edition " + d.edition());
        table(
                List.of("line", "VA", "article"),
                d.lines().stream()
                        .map(l -> List.of(
                                (l.counts() ? "" : "  ") + l.what(),
                                (l.counts() ? "+ " : "  ") + number(l.va()),
                                l.article()))
                        .toList());
        say("Total " + number(d.va()) + " VA = " + amps(d) + ": " + d.verdict().word() + ".");
        if (d.neutral() != null) {
            say("Neutral " + exact(d.neutral()) + " A.");
        }
        service(d);
        d.notes().forEach(n -> lines.addAll(Lines.bullet(n, width)));
    }

    /** Nothing is sized while anything is asked: it would be too small. */
    private void service(Demand d) {
        if (d.method() == Demand.Method.UNITS || !d.asked().isEmpty()) {
            return;
        }
        ServiceSize.of(d)
                .ifPresent(s -> say("The least service of one dwelling for that is " + s.rating() + " A"
                        + (s.copper() == null
                                ? "; its conductors are not in the table."
                                : ": conductors " + s.copper() + " copper or " + s.aluminium()
                                        + " aluminium (310.12), copper grounding electrode conductor "
                                        + s.electrodeOfCopper()
                                        + " or " + s.electrodeOfAluminium() + " with them (T250.66).")));
    }

    private void fits(DemandStudy study) {
        if (!study.fits().isEmpty()) {
            title("The largest that fits beside all that, edition " + study.edition() + ", strictest reading");
            table(
                    List.of("load", "method", "largest"),
                    study.fits().stream()
                            .map(f -> List.of(f.kind().word(), f.method().word(), largest(f)))
                            .toList());
        }
        bullets("What would make it fit, least work first, edition " + study.edition(), cures(study));
    }

    private static String largest(WhatFits.Fit f) {
        String size = number(Math.floor(f.va())) + " VA (" + f.amps() + " A)";
        return f.va() == 0
                ? "none"
                : f.isUnbounded()
                        ? size + " and more"
                        : f.isAtMost() ? "no more than " + size + ", less by what is still asked" : size;
    }

    private static List<String> cures(DemandStudy study) {
        return study.cures().stream()
                .map(c -> c.method().word() + ": " + c.said()
                        + (c.amps() == null ? "" : " Then " + exact(Objects.requireNonNull(c.amps())) + " A.")
                        + (c.isShown() ? "" : " What is still asked may ask for more."))
                .toList();
    }

    private static String exact(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%,.2f", value);
        return text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
    }

    private void table(List<String> columns, List<List<String>> rows) {
        lines.addAll(new Table(columns, rows).lines(width));
    }

    private void say(String s) {
        lines.addAll(Lines.wrap(s, width));
    }

    private void title(String s) {
        lines.add("");
        say(s);
    }

    private void bullets(String title, List<String> all) {
        if (!all.isEmpty()) {
            title(title);
            all.forEach(s -> lines.addAll(Lines.bullet(s, width)));
        }
    }
}
