package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.loadflow.FaultCurrent;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.panelplan.Demand;
import org.splicebook.panelplan.schedule.PlacedUnit;
import org.splicebook.panelplan.schedule.Schedule;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.record.Protection;
import org.splicebook.wiring.PanelLegs;

/** The paper for the day: every page of a plan, made from it alone. */
public final class Papers {
    private static final double ONE_LEG = 120;
    private static final String BLANK = "";

    private final UpgradePlan plan;

    private Papers(UpgradePlan plan) {
        this.plan = plan;
    }

    /** {@return the pages, in the order in which they are used} */
    public static List<Page> of(UpgradePlan plan, Prices prices) {
        Papers p = new Papers(plan);
        return List.of(
                p.open(),
                p.schedule(),
                p.goals(),
                p.legs(),
                p.demand(),
                p.protection(),
                new LandingList(plan).page(),
                new PartsList(plan, prices).page(),
                p.power(),
                Page.lines("order", "Order of work", UpgradeData.list("order")),
                p.readings(),
                p.directory(),
                p.checks(),
                p.change());
    }

    private Page open() {
        List<String> lines = new ArrayList<>();
        plan.separate().forEach(s -> lines.add("First: " + s));
        plan.asked().forEach(s -> lines.add("To be asked: " + s));
        plan.assumed().forEach(s -> lines.add("Taken to be so: " + s));
        return Page.lines("open", "Before anything: what is to be put right, asked and known", lines);
    }

    private Page schedule() {
        List<List<String>> rows = new ArrayList<>();
        int spaces = plan.wanted().kind().spaces();
        for (int s = 1; s <= spaces; s++) {
            int space = s;
            List<PlacedUnit> here = plan.schedule().placed().stream()
                    .filter(p -> p.spaces().contains(space))
                    .sorted(Comparator.comparing(PlacedUnit::half))
                    .toList();
            for (PlacedUnit p : here) {
                Circuit c = circuit(p.unit());
                Circuit.Pole pole = c.poles().get(p.spaces().indexOf(s));
                rows.add(List.of(
                        s + p.half(),
                        leg(s),
                        c.breaker(),
                        c.label(),
                        pole.terminal().isEmpty() ? "new" : pole.terminal(),
                        String.join(", ", pole.wires()),
                        Words.whole(pole.va())));
            }
            if (here.isEmpty()) {
                boolean isKept = plan.wanted().kept().contains(s);
                rows.add(List.of(String.valueOf(s), leg(s), isKept ? "kept free" : "free", BLANK, BLANK, BLANK, BLANK));
            }
        }
        List<String> notes = new ArrayList<>();
        plan.circuits().forEach(c -> c.why().forEach(w -> notes.add(c.name() + ": " + w)));
        return new Page(
                "schedule",
                "The new panel: " + plan.wanted().kind().title(),
                List.of("space", "leg", "breaker", "circuit", "was", "wires", "VA"),
                rows,
                notes);
    }

    private String leg(int space) {
        return PanelLegs.letter(plan.schedule().task().frame().leg(space)).toUpperCase(Locale.ROOT);
    }

    private Circuit circuit(String name) {
        return plan.circuits().stream()
                .filter(c -> c.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private Page goals() {
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("lawful", "yes", "by rows, legs, poles, tandems and label"));
        for (Schedule.Stage s : plan.schedule().stages()) {
            rows.add(List.of(
                    s.goal().word(),
                    String.valueOf(s.value()),
                    s.isProved() ? "proved: none is better" : "not proved: none is below " + s.bound()));
        }
        return new Page(
                "goals",
                "How good it is, the most wanted first; what comes later never costs what comes before",
                List.of("goal", "comes to", "proof"),
                rows,
                plan.schedule().isProved()
                        ? List.of()
                        : List.of("The search ended after its "
                                + Words.number(plan.wanted().seconds())
                                + " s; a longer one (seconds) may prove more or find a better one."));
    }

    private Page legs() {
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < plan.legsAfter().size(); i++) {
            double was = i < plan.legsBefore().size() ? plan.legsBefore().get(i) : 0;
            double is = plan.legsAfter().get(i);
            rows.add(List.of(
                    PanelLegs.letter(i).toUpperCase(Locale.ROOT),
                    Words.whole(was),
                    Words.number(was / ONE_LEG),
                    Words.whole(is),
                    Words.number(is / ONE_LEG)));
        }
        return new Page(
                "legs",
                "Demand on the legs, before and after (standard method, not nameplates; what is new counts only after)",
                List.of("leg", "VA before", "A before", "VA after", "A after"),
                rows,
                List.of("They differ by " + Words.number(UpgradePlan.unbalance(plan.legsBefore()) * 100)
                        + " % before and " + Words.number(UpgradePlan.unbalance(plan.legsAfter()) * 100)
                        + " % after. Unbalance is no violation (210.11(B)); above 20 to 25 % it is worth a look."));
    }

    private Page demand() {
        List<List<String>> rows = plan.demands().stream()
                .map(d -> List.of(
                        d.method().word() + (d.reading().isEmpty() ? "" : ", " + d.reading()),
                        String.valueOf(d.edition()),
                        Words.whole(d.va()),
                        Words.number(d.amps()),
                        d.rating() == null ? BLANK : Words.number(d.rating()),
                        d.verdict().word()))
                .toList();
        return new Page(
                "demand",
                "Demand with what is new, held against the new main",
                List.of("method", "edition", "VA", "A", "held against A", "outcome"),
                rows,
                plan.demands().stream()
                        .flatMap((Demand d) -> d.notes().stream())
                        .distinct()
                        .toList());
    }

    private Page protection() {
        List<List<String>> rows = new ArrayList<>();
        for (Circuit c : plan.circuits()) {
            Set<Protection> had = new TreeSet<>();
            plan.was().breakers().values().stream()
                    .filter(b -> c.was().contains(b.key()))
                    .forEach(b -> had.addAll(b.protects()));
            if (!c.protects().isEmpty() || !had.isEmpty()) {
                rows.add(List.of(
                        plan.schedule().of(c.name()).key(),
                        c.label(),
                        words(had),
                        words(c.protects()),
                        String.join(", ", c.neutrals())));
            }
        }
        return new Page(
                "protection",
                "Protection at the breakers",
                List.of("breaker", "circuit", "today", "then", "neutrals on the breaker"),
                rows,
                List.of(
                        "A breaker that protects needs the neutral of its own circuit, all of it, and no other.",
                        "Where a frame hangs on the neutral (old three-wire receptacles) a ground-fault breaker trips as soon as"
                                + " the frame touches ground: a fourth wire and a new receptacle come first.",
                        "Two poles with arc-fault and ground-fault in one: see that such a breaker is made for the panel."));
    }

    private static String words(Set<Protection> all) {
        return all.isEmpty()
                ? "none"
                : String.join(", ", all.stream().map(Protection::word).toList());
    }

    private Page power() {
        House house = plan.before();
        List<String> keep = UpgradeData.list("keep-alive");
        List<List<String>> rows = new ArrayList<>();
        double watts = 0;
        for (Box b : house.boxes().values()) {
            for (Device d : b.devices().values()) {
                if (d.load() != null && keep.contains(d.load())) {
                    watts += d.watts() == null ? 0 : d.watts().base();
                    Place place = b.place() == null ? null : house.places().get(b.place());
                    rows.add(List.of(
                            d.load().replace('-', ' ') + " " + d.name(),
                            place == null ? BLANK : place.said(),
                            d.watts() == null ? "not known" : d.watts().said(),
                            BLANK));
                }
            }
        }
        List<String> notes = new ArrayList<>();
        notes.add("Off: the service, taken away by the utility at the meter; the main, "
                + plan.was().name() + ", locked and tagged. The supply lugs stay live until the utility has been.");
        house.sources().forEach((name, s) -> {
            if (!plan.was().supply().contains(name)) {
                notes.add("Off, locked and tagged as well: " + name + " ("
                        + s.kind().word() + ").");
            }
        });
        notes.add("Dark: everything behind " + plan.was().name() + ". Known plates above: " + Words.whole(watts)
                + " W together; motors start with several times that.");
        notes.add(
                "Temporary power comes from a supply with ground-fault protection, never by feeding back into a receptacle.");
        notes.add("The command shut-off " + plan.was().name() + " lists every test before a hand goes in.");
        return new Page(
                "power",
                "Shut-off and temporary power",
                List.of("what must keep running or be cared for", "where", "watts", "fed by, on the day"),
                rows,
                notes);
    }

    private Page readings() {
        List<List<String>> rows = new ArrayList<>();
        UpgradeData.list("readings").forEach(r -> rows.add(List.of(r, BLANK, BLANK, BLANK, BLANK, BLANK)));
        ordered()
                .forEach(c -> rows.add(List.of(
                        plan.schedule().of(c.name()).key() + " " + c.label(), BLANK, BLANK, BLANK, BLANK, BLANK)));
        return new Page(
                "readings",
                "Tests and readings",
                List.of(
                        "circuit",
                        "ohms hot to ground, off",
                        "volts, on",
                        "polarity, ground",
                        "test button",
                        "torque, by"),
                rows,
                List.of("By:                    Date:                    Instrument:"));
    }

    private List<Circuit> ordered() {
        return plan.circuits().stream()
                .sorted(Comparator.comparingInt(c -> plan.schedule().of(c.name()).spaces().stream()
                        .min(Integer::compare)
                        .orElse(0)))
                .toList();
    }

    private Page directory() {
        List<List<String>> rows = ordered().stream()
                .map(c -> List.of(plan.schedule().of(c.name()).key(), c.breaker(), c.label()))
                .toList();
        return new Page(
                "directory",
                "Directory for the door (408.4(A)); after the readings",
                List.of("space", "breaker", "feeds"),
                rows,
                List.of());
    }

    private Page checks() {
        List<List<String>> rows = new ArrayList<>();
        for (Map<String, String> c : UpgradeData.listed("checks")) {
            rows.add(List.of(c.getOrDefault("what", BLANK), c.getOrDefault("article", BLANK), BLANK));
        }
        List<String> notes = new ArrayList<>();
        int clears = plan.wanted().kind().interrupting();
        for (FaultCurrent f : FaultCurrent.atPanels(LoadFlow.of(plan.after()), LoadCase.nothingOn())
                .rows()) {
            Double a = f.amperes();
            if (f.at().equals(plan.was().name()) && a != null) {
                notes.add("A fault "
                        + f.between().name().toLowerCase(Locale.ROOT).replace('_', ' ')
                        + " draws about " + Words.whole(a) + " A at its lugs by what is recorded; its breakers clear "
                        + Words.whole(clears) + " A" + (a > clears ? ": TOO LITTLE." : "."));
            }
        }
        boolean known = plan.was().supply().stream()
                .map(s -> plan.before().sources().get(s))
                .allMatch(s -> s != null && s.transformer() != null);
        if (!known) {
            notes.add(
                    "The transformer is not recorded: what is usual was taken. Ask the utility for the fault current.");
        }
        return new Page("checks", "Checklist of place and panel", List.of("what", "article", "seen by"), rows, notes);
    }

    private Page change() {
        return ChangePage.of(plan.findings(), plan.currents());
    }
}
