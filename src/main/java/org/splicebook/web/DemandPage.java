package org.splicebook.web;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.DemandLoad;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.Demands;
import org.splicebook.panelplan.IntervalReader;
import org.splicebook.panelplan.IntervalRecord;
import org.splicebook.panelplan.Metering;
import org.splicebook.panelplan.RecordedDwelling;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.panelplan.upgrade.DemandPapers;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.render.DemandText;
import org.splicebook.render.IntervalText;
import org.splicebook.render.drawing.Plots;
import org.splicebook.render.sheet.DemandSheet;
import org.splicebook.render.sheet.Paper;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Rows;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;

/**
 * What a house demands of its service, on a page: method against edition, line by line, what fits; what is missing is asked for with a form
 * that writes it into the record. What was told beside the record is in the address, so that the page can be kept and sent.
 */
final class DemandPage {
    private static final String PATH = "/houses/{house}/demand";
    private static final String METERED = "metered";
    private static final String EDITION = "edition";
    private static final int MOST_KEPT = 50;
    private static final Set<String> FIRST = Set.of("asked", "methods", "fits", "cures");

    private final HouseStore store;

    /** Readings that were sent lately, by a key of their house and chance: they belong to nobody's record. */
    private final Cache<String, IntervalRecord> readings =
            Caffeine.newBuilder().maximumSize(MOST_KEPT).build();

    DemandPage(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PATH, this::show),
                Route.post(PATH, this::tell),
                Route.post(PATH + "/readings", this::read),
                Route.post(PATH + "/record", this::write),
                Route.get(PATH + "/paper.pdf", this::print));
    }

    private static UnaryOperator<String> asked(Context ctx) {
        return name -> Objects.requireNonNullElse(ctx.queryParam(name), "");
    }

    private static UnaryOperator<String> sent(Context ctx) {
        return name -> Sent.field(ctx, name).replace("\r\n", "\n");
    }

    /** {@return the address that holds what was said} */
    private static String address(House house, UnaryOperator<String> said, Map<String, String> other) {
        Map<String, String> all = new LinkedHashMap<>(new ToldForm(said).held());
        for (String key : List.of(METERED, EDITION)) {
            all.put(key, said.apply(key));
        }
        all.putAll(other);
        String query = all.entrySet().stream()
                .filter(e -> !e.getValue().isBlank())
                .map(e -> Paths.part(e.getKey()) + "=" + Paths.part(e.getValue()))
                .collect(Collectors.joining("&"));
        return new Paths(house.id()).base() + "/demand" + (query.isEmpty() ? "" : "?" + query);
    }

    private void tell(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = sent(ctx);
        Sent.attempt(
                ctx,
                () -> {
                    DemandStudy unused = study(stored.house(), said);
                    return address(stored.house(), said, Map.of());
                },
                wrong -> DraftPages.page(stored, page(stored, said, wrong)));
    }

    private void show(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        try {
            ctx.html(DraftPages.page(stored, page(stored, asked(ctx), Wrong.NONE)));
        } catch (ProblemException e) {
            ctx.status(Statuses.of(e.problems()))
                    .html(DraftPages.page(stored, page(stored, asked(ctx), Sent.wrong(ctx, Map.of(), e.problems()))));
        }
    }

    private DemandStudy study(House house, UnaryOperator<String> said) {
        TellReader reader = new TellReader(house);
        List<Problem> problems = new ArrayList<>(new ToldForm(said).tell(reader, true));
        String key = said.apply(METERED);
        IntervalRecord kept = key.isEmpty() ? null : readings.getIfPresent(key(house, key));
        if (kept != null) {
            reader.intervals(kept);
        } else if (!key.isEmpty()) {
            problems.add(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field(METERED),
                    "The readings are no longer kept here.",
                    "Send them again."));
        }
        Result<Told> told = reader.read();
        problems.addAll(told.problems());
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return DemandStudy.of(
                RecordedDwelling.of(Derivation.derive(house), told.get()),
                DemandStudy.Wanted.read(house, null, null, reader.metering(), 0).get());
    }

    /** {@return whether what was told beside the record can be calculated with, so that what is wrong is elsewhere} */
    private boolean isRead(House house, UnaryOperator<String> said) {
        try {
            DemandStudy unused = study(house, said);
            return true;
        } catch (ProblemException e) {
            return false;
        }
    }

    private static String key(House house, String key) {
        return house.id() + " " + key;
    }

    private static int edition(House house, UnaryOperator<String> said) {
        String year = said.apply(EDITION);
        return Demands.editions().stream()
                .filter(e -> String.valueOf(e).equals(year))
                .findFirst()
                .orElse(Demands.edition(house));
    }

    private WorkPage page(StoredHouse stored, UnaryOperator<String> said, Wrong wrong) {
        House house = stored.house();
        WorkPage page = WorkPage.of("What " + house.said() + " demands of its service", "", "")
                .withWrong(wrong);
        List<Entry> entries = new ArrayList<>(List.of(new Entry(
                address(house, x -> "", Map.of()),
                "Tell it beside the record; nothing is stored",
                told(said),
                "Calculate")));
        if (!wrong.isEmpty() && !isRead(house, said)) {
            return page.withEntries(entries);
        }
        DemandStudy study = study(house, said);
        int edition = edition(house, said);
        List<String> drawings = new ArrayList<>();
        drawings.add(Plots.demand(
                        house,
                        study.demands().stream()
                                .filter(d -> d.edition() == edition)
                                .toList(),
                        study.dwelling().rating())
                .svg());
        List<Rows> tables = new ArrayList<>();
        Metering m = study.metering();
        if (m != null && m.record() != null && m.verdict() != null) {
            drawings.add(Plots.hours(house, m.record()).svg());
            tables.add(metered(m, m.record(), m.verdict()));
        }
        DemandPapers.of(house.said(), study, edition).forEach(p -> tables.add(rows(p, FIRST)));
        entries.addAll(record(stored, study, said));
        entries.add(upload(house, said));
        return new WorkPage(
                "What " + house.said() + " demands of its service",
                "",
                lead(study, edition),
                wrong,
                null,
                0,
                next(house, said, edition),
                tables,
                List.of(),
                List.of(),
                List.of(),
                entries,
                List.of(),
                cautions(),
                drawings);
    }

    static List<String> cautions() {
        List<String> all = new ArrayList<>(Caution.forWhat(Leads.TO_A_WIRE));
        all.add(DemandText.ADVICE);
        return all;
    }

    /** {@return a page of a paper as a table; those that are not looked at first are folded} */
    static Rows rows(Page p, Set<String> first) {
        return new Rows(p.title(), p.columns(), p.rows(), List.of(), p.notes(), !first.contains(p.id()));
    }

    private static List<Input> told(UnaryOperator<String> said) {
        List<Input> inputs = new ArrayList<>(new ToldForm(said).inputs(true));
        inputs.add(Input.hidden(METERED, said.apply(METERED)));
        inputs.add(Input.hidden(EDITION, said.apply(EDITION)));
        return inputs;
    }

    private static String lead(DemandStudy study, int edition) {
        String said = study.demands().stream()
                .filter(d -> d.edition() == edition)
                .map(d -> DemandPapers.name(d) + " " + d.wholeAmps() + " A, "
                        + d.verdict().word())
                .collect(Collectors.joining("; "));
        int asked = study.demands().stream()
                .map(Demand::asked)
                .mapToInt(List::size)
                .max()
                .orElse(0);
        return "By edition " + edition + ": " + said + "."
                + (asked == 0
                        ? ""
                        : " " + asked + (asked == 1 ? " answer is" : " answers are")
                                + " still missing; until then nothing is said to fit.");
    }

    private static List<Link> next(House house, UnaryOperator<String> said, int edition) {
        List<Link> next = new ArrayList<>();
        String query = address(house, said, Map.of()).replaceFirst("^[^?]*", "");
        next.add(new Link(
                new Paths(house.id()).base() + "/demand/paper.pdf" + query,
                "Take it along for the permit",
                "PDF, every line of every edition"));
        Demands.editions().stream()
                .filter(e -> e != edition)
                .forEach(e -> next.add(new Link(
                        address(house, said, Map.of(EDITION, String.valueOf(e))), "Line by line by edition " + e, "")));
        next.add(new Link(new Paths(house.id()).base() + "/plan", "Plan a new panel", ""));
        return next;
    }

    private static Rows metered(Metering m, IntervalRecord r, IntervalRecord.Verdict verdict) {
        List<String> notes = new ArrayList<>(List.of(IntervalText.said(verdict)));
        notes.addAll(verdict.reasons());
        notes.addAll(m.asked());
        notes.addAll(r.notes());
        return new Rows(
                "The readings of the meter",
                List.of("from", "to", "intervals", "missing", "greatest", "when"),
                List.of(List.of(
                        r.from().toString(),
                        r.to().toString(),
                        r.count() + " of " + r.minutes() + " minutes",
                        String.valueOf(r.missing()),
                        Math.round(r.peakVa()) + " VA",
                        r.peakAt().toString())),
                List.of(),
                notes,
                false);
    }

    private static Entry upload(House house, UnaryOperator<String> said) {
        List<Input> inputs = new ArrayList<>(new ToldForm(said).hidden());
        inputs.add(Input.hidden(EDITION, said.apply(EDITION)));
        inputs.add(Input.typed(
                Input.Kind.LINES,
                "file",
                "Readings of the meter",
                "",
                "a CSV whose first line is start,kW or start,kWh; a year of them, or 30 days of quarters of an hour",
                false));
        return new Entry(
                new Paths(house.id()).base() + "/demand/readings",
                "What a meter showed. It is looked at and not stored",
                inputs,
                "Look at the readings");
    }

    /** The form for what is missing and can stand in the record: plates and the floor area. */
    private static List<Entry> record(StoredHouse stored, DemandStudy study, UnaryOperator<String> said) {
        House house = stored.house();
        Map<String, String> places = new TreeMap<>();
        for (Box b : house.boxes().values()) {
            b.devices().keySet().forEach(d -> places.put(d, b.name()));
        }
        List<Input> inputs = new ArrayList<>();
        for (DemandLoad l : study.dwelling().loads()) {
            if (l.va() == null && !l.isNew() && places.containsKey(l.name())) {
                inputs.add(Input.typed(
                        Input.Kind.TEXT,
                        DemandPlates.PREFIX + l.name(),
                        l.name() + ", " + l.kind().word(),
                        "",
                        "its plate, as 4500 W or 20 A; in box " + places.get(l.name()),
                        false));
            }
        }
        if (house.area() == null) {
            inputs.add(Input.typed(
                    Input.Kind.TEXT, "area-measured", "Floor area", "", "by outside dimensions: 1800 ft2", false));
        }
        if (inputs.isEmpty()) {
            return List.of();
        }
        inputs.add(Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number())));
        inputs.addAll(new ToldForm(said).hidden());
        inputs.add(Input.hidden(METERED, said.apply(METERED)));
        inputs.add(Input.hidden(EDITION, said.apply(EDITION)));
        return List.of(new Entry(
                new Paths(house.id()).base() + "/demand/record",
                "What is missing, read off plates: it is written into the record as a revision",
                inputs,
                "Write it down"));
    }

    private void write(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = sent(ctx);
        Sent.attempt(
                ctx,
                () -> {
                    House after = DemandPlates.written(stored.house(), ctx);
                    Revision made = store.put(after, Sent.revision(ctx), BoxPages.BY_PAGE, "Nameplates and floor area")
                            .get();
                    return Just.stored(address(after, said, Map.of()), made);
                },
                wrong -> DraftPages.page(stored, page(stored, said, wrong)));
    }

    private void read(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        UnaryOperator<String> said = sent(ctx);
        Sent.attempt(
                ctx,
                () -> {
                    String text = Sent.file(ctx, "file");
                    if (text.isBlank()) {
                        throw Failures.failure(
                                "file", ProblemKind.MISSING, "No file came.", "Choose a file of readings.");
                    }
                    IntervalRecord read = Sent.typed("file", text, IntervalReader.read("line", text));
                    String id = UUID.randomUUID().toString();
                    readings.put(key(stored.house(), id), read);
                    return address(stored.house(), said, Map.of(METERED, id));
                },
                wrong -> DraftPages.page(stored, page(stored, said, wrong)));
    }

    private void print(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        @Nullable DemandStudy study = study(stored.house(), asked(ctx));
        String stamp =
                "Revision " + stored.revision().number() + ", printed " + LocalDate.now(ZoneId.systemDefault()) + ".";
        ctx.contentType("application/pdf")
                .header("Content-Disposition", "attachment; filename=\"demand.pdf\"")
                .result(SheetPdf.of(DemandSheet.of(stored.house(), study, stamp), Paper.A4));
    }
}
