package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Dwelling;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.panelplan.WhatFits;

/** A study of a demand as pages: the table of methods and editions, each calculation line by line, what fits and what would make it fit. */
public final class DemandPapers {
    private static final String BLANK = "";

    private DemandPapers() {}

    /**
     * {@return the pages}
     *
     * @param house what people call the house
     * @param edition the edition whose calculations are told line by line; null for all
     */
    public static List<Page> of(String house, DemandStudy study, @Nullable Integer edition) {
        List<Page> pages = new ArrayList<>(List.of(
                loads(house, study.dwelling()),
                Page.lines(
                        "asked",
                        "Still asked; until it is told nothing is said to fit",
                        study.dwelling().asked()),
                Page.lines("assumed", "Taken to be so", study.dwelling().assumed()),
                methods(study)));
        study.demands().stream()
                .filter(d -> edition == null || d.edition() == edition)
                .forEach(d -> pages.add(sheet(d)));
        pages.add(fits(study));
        pages.add(Page.lines(
                "cures", "What would make it fit, least work first, edition " + study.edition(), cures(study)));
        return pages.stream()
                .filter(p -> !p.rows().isEmpty() || !p.notes().isEmpty())
                .toList();
    }

    private static Page loads(String house, Dwelling d) {
        return new Page(
                "loads",
                "What " + house + " demands of its service: what is counted beside the general load",
                List.of("load", "kind", "VA"),
                d.loads().stream()
                        .map(l -> List.of(
                                l.name() + (l.isNew() ? " (new)" : BLANK),
                                l.kind().word(),
                                size(l)))
                        .toList(),
                List.of(
                        "In volt-amperes at " + number(d.volts()) + " V between legs, held against "
                                + (d.rating() == null ? "no rating (none is known)" : number(d.rating()) + " A") + ".",
                        "Floor area " + (d.area() == null ? "not known" : number(Math.rint(d.area())) + " ft2") + "."));
    }

    private static String size(DemandLoad l) {
        String plate = l.va() == null ? "not known" : number(l.va());
        return l.setPoint() == null ? plate : plate + ", held to " + number(l.setPoint());
    }

    private static Page methods(DemandStudy study) {
        List<Integer> editions = study.demands().stream()
                .map(Demand::edition)
                .distinct()
                .sorted()
                .toList();
        Map<String, Map<Integer, Demand>> rows = new LinkedHashMap<>();
        study.demands()
                .forEach(d -> rows.computeIfAbsent(name(d), n -> new LinkedHashMap<>())
                        .put(d.edition(), d));
        return new Page(
                "methods",
                "By method and edition",
                Stream.concat(Stream.of("method"), editions.stream().map(String::valueOf))
                        .toList(),
                rows.entrySet().stream()
                        .map(r -> Stream.concat(
                                        Stream.of(r.getKey()),
                                        editions.stream()
                                                .map(e -> cell(r.getValue().get(e))))
                                .toList())
                        .toList(),
                List.of());
    }

    private static String cell(@Nullable Demand d) {
        return d == null ? "-" : amps(d) + ", " + d.verdict().word();
    }

    /** {@return the amperes, and what they are at least where that is less} */
    private static String amps(Demand d) {
        String said = exact(d.amps()) + " A";
        return !d.asked().isEmpty() && d.least() < d.amps() - 0.005
                ? said + " by what is known (at least " + exact(d.least()) + ")"
                : d.asked().isEmpty() ? said : "at least " + said;
    }

    /** {@return a calculation's method, and its reading where there are several} */
    public static String name(Demand d) {
        return d.method().word() + (d.reading().isEmpty() ? BLANK : ": " + d.reading());
    }

    private static Page sheet(Demand d) {
        List<String> notes = new ArrayList<>();
        notes.add("Total " + number(d.va()) + " VA = " + amps(d) + ": "
                + d.verdict().word() + ".");
        if (d.neutral() != null) {
            notes.add("Neutral " + exact(d.neutral()) + " A.");
        }
        service(d).ifPresent(notes::add);
        notes.addAll(d.notes());
        return new Page(
                "lines",
                name(d) + ", edition " + d.edition(),
                List.of("line", "VA", "article"),
                d.lines().stream()
                        .map(l -> List.of(
                                (l.counts() ? BLANK : "  ") + l.what(),
                                (l.counts() ? "+ " : "  ") + number(l.va()),
                                l.article()))
                        .toList(),
                notes);
    }

    /** Nothing is sized while anything is asked: it would be too small. */
    private static Optional<String> service(Demand d) {
        if (d.method() == Demand.Method.UNITS || !d.asked().isEmpty()) {
            return Optional.empty();
        }
        return ServiceSize.of(d)
                .map(s -> "The least service of one dwelling for that is " + s.rating() + " A"
                        + (s.copper() == null
                                ? "; its conductors are not in the table."
                                : ": conductors " + s.copper() + " copper or " + s.aluminium()
                                        + " aluminium (310.12), copper grounding electrode conductor "
                                        + s.electrodeOfCopper()
                                        + " or " + s.electrodeOfAluminium() + " with them (T250.66)."));
    }

    private static Page fits(DemandStudy study) {
        return new Page(
                "fits",
                "The largest that fits beside all that, edition " + study.edition() + ", strictest reading",
                List.of("load", "method", "largest"),
                study.fits().stream()
                        .map(f -> List.of(f.kind().word(), f.method().word(), largest(f)))
                        .toList(),
                List.of());
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
                        + (c.amps() == null ? BLANK : " Then " + exact(Objects.requireNonNull(c.amps())) + " A.")
                        + (c.isShown() ? BLANK : " What is still asked may ask for more."))
                .toList();
    }

    private static String exact(double value) {
        return String.format(Locale.ROOT, "%.2f", value);
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%,.2f", value);
        return text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
    }
}
