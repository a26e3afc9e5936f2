package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import org.splicebook.visits.Field;
import org.splicebook.visits.StepKind;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;
import org.splicebook.visits.VisitKinds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "visit",
        description = {
            "From what the tenant says to the closed visit, step by step: report, diagnose, plan, arrange, begin, note, finish, close;"
                    + " drop, reopen. The command sheet prints its notice and the visit itself.",
            "",
            "list                              the visits of a house",
            "show --visit visit-1              one, with what the record gained and what is still to be tested",
            "report said=\"half the unit is out\" symptoms=\"dead: living-2\"",
            "diagnose --visit visit-1          with nothing said: what the symptoms make likely",
            "fields                            what each step says"
        })
final class VisitCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "STEP", description = "list, show, fields, or a step.")
    private String step = "list";

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "NAME=VALUE", description = "What the step says.")
    private Map<String, String> said = new LinkedHashMap<>();

    @Option(names = "--visit", paramLabel = "NAME", description = "The visit; may be left out where one is open.")
    private String name = "";

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    VisitCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (step.equals("fields")) {
            VisitKinds.words().forEach(w -> VisitKinds.step(w).ifPresent(this::fields));
            return ExitCodes.OK;
        }
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            if (houses.findHouse(id).isEmpty()) {
                throw Houses.notFound(id);
            }
            VisitDesk desk = new VisitDesk(houses);
            switch (step) {
                case "list" -> list(desk.list(id));
                case "show" -> show(desk, visit(desk, id));
                case "report" -> {
                    String fresh = name.isEmpty() ? desk.next(id) : name;
                    show(desk, desk.take(id, fresh, step, said, 0, who()));
                }
                default -> {
                    Visit before = visit(desk, id);
                    Map<String, String> all = said.isEmpty() ? desk.suggested(before, step) : said;
                    show(desk, desk.take(id, before.name(), step, all, before.version(), who()));
                }
            }
        }
        return ExitCodes.OK;
    }

    private void fields(StepKind kind) {
        terminal.out().println(kind.id() + ": " + kind.title());
        for (Field f : kind.fields()) {
            String choices = f.choices().isEmpty() ? "" : " (" + String.join(", ", f.choices()) + ")";
            terminal.out()
                    .println("    " + f.name() + (f.needed() ? ", needed" : "") + ": " + f.label()
                            + (f.meaning().isEmpty() ? "" : ", " + f.meaning()) + choices);
        }
    }

    private Visit visit(VisitDesk desk, String id) {
        List<Visit> all = desk.list(id);
        List<Visit> open = all.stream().filter(Visit::isOpen).toList();
        if (name.isEmpty() && open.size() == 1) {
            return open.get(0);
        }
        return all.stream()
                .filter(v -> v.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new ProblemException(Problem.error(
                        ProblemKind.NOT_FOUND,
                        Where.field("--visit"),
                        name.isEmpty()
                                ? open.size() + " visits of " + id + " are open."
                                : "The house " + id + " has no visit " + name + ".",
                        "Say which with --visit; the command visit list tells those that there are.")));
    }

    private void list(List<Visit> visits) {
        if (output.json()) {
            terminal.out()
                    .println(Json.text(Json.list(
                            visits,
                            v -> Json.tree(
                                    Map.of("visit", v.name(), "state", v.state().id(), "steps", v.version())))));
            return;
        }
        visits.forEach(v -> terminal.out().println(v.name() + ", " + v.state().title() + ": " + v.words()));
        if (visits.isEmpty()) {
            terminal.out().println("No visit yet.");
        }
    }

    private void show(VisitDesk desk, Visit v) {
        List<String> since = desk.since(v);
        List<String> open = v.isOpen() ? desk.openTests(v) : List.of();
        if (output.json()) {
            Map<String, Object> told = new LinkedHashMap<>();
            told.put("visit", v.name());
            told.put("state", v.state().id());
            told.put("steps", Json.list(v.steps(), s -> {
                Map<String, Object> one = new LinkedHashMap<>();
                one.put("step", s.kind().id());
                one.put("at", s.at().toString());
                one.put("who", s.who());
                one.put("said", s.said());
                return Json.tree(one);
            }));
            told.put("since", since);
            told.put("to-test", open);
            terminal.out().println(Json.text(Json.tree(told)));
            return;
        }
        terminal.out()
                .println(v.name() + ": " + v.state().title() + ". " + v.state().next());
        for (Visit.Step s : v.steps()) {
            terminal.out().println();
            terminal.out().println(s.kind().title() + " (" + s.at().toString().substring(0, 16) + ", " + s.who() + ")");
            s.kind().fields().stream()
                    .filter(f -> !s.value(f.name()).isEmpty())
                    .forEach(f -> terminal.out()
                            .println("    " + f.label() + ": "
                                    + s.value(f.name()).replace("\n", "\n        ")));
        }
        lines("What the record gained since the work began", since);
        lines("Still to be tested", open);
        lines("What must be off, and who is affected", v.isOpen() ? desk.affected(v) : List.of());
    }

    private void lines(String title, List<String> lines) {
        if (!lines.isEmpty()) {
            terminal.out().println();
            terminal.out().println(title);
            lines.forEach(l -> terminal.out().println("    " + l));
        }
    }

    private static String who() {
        return System.getProperty("user.name", "someone");
    }
}
