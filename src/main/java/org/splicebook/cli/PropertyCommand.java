package org.splicebook.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.property.Dependents;
import org.splicebook.property.Joined;
import org.splicebook.property.PropertyQuestions;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemText;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.wiring.Derivation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "property",
        description = {
            "Units and common parts kept together: what feeds what from one record to another.",
            "",
            "list                               the properties",
            "load FILE                          stores a property file; its houses are loaded by themselves",
            "show PROPERTY                      writes it as a property file",
            "questions                          what can be asked of a property",
            "ask PROPERTY QUESTION NAME=VALUE   goes-dark part=common thing=switch.1+3: who goes dark in all units;"
                    + " other-meters; neutrals-across; against-type unit=14b",
            "begin PROPERTY UNIT                begins the record of a unit as a copy of its type's: all of it assumed until seen"
        })
final class PropertyCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What to do. */
    enum Deed {
        LIST,
        LOAD,
        SHOW,
        QUESTIONS,
        ASK,
        BEGIN
    }

    @Parameters(index = "0", paramLabel = "DEED", description = "list, load, show, questions, ask or begin.")
    private Deed deed = Deed.LIST;

    @Parameters(index = "1..*", arity = "0..*", paramLabel = "WORDS", description = "As the lines above say.")
    private List<String> words = new ArrayList<>();

    @Option(names = "--replace", description = "With load: store a property that exists as its next revision.")
    private boolean replace;

    @Option(names = "--why", paramLabel = "WORDS", description = "Why, for the record of revisions.")
    private String why = "";

    @Mixin
    private TableOption table = new TableOption();

    @Mixin
    private OutputFile target = new OutputFile();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    PropertyCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (deed == Deed.QUESTIONS) {
            questions();
            return ExitCodes.OK;
        }
        try (HouseStore houses = program.open(store.choice())) {
            switch (deed) {
                case LIST -> list(houses);
                case LOAD -> load(houses, Path.of(word(0, "a file")));
                case SHOW ->
                    target.write(terminal, PropertyFiles.write(find(houses).property()));
                case ASK -> ask(houses);
                case BEGIN -> begin(houses, find(houses).property());
                case QUESTIONS -> throw new IllegalStateException();
            }
        }
        return ExitCodes.OK;
    }

    private void ask(HouseStore houses) {
        Joined joined = joined(houses, find(houses));
        Reply reply = Dependents.told(
                PropertyQuestions.ask(joined, word(1, "a question"), parameters())
                        .get(),
                joined,
                h -> houses.papers().isMarked(Papers.RESIDENT, h));
        if (!table.write(reply, terminal)) {
            output.print(reply, terminal);
        }
    }

    private void questions() {
        for (Question q : PropertyQuestions.list()) {
            terminal.out().println(q.id() + ": " + q.words());
            q.parameters()
                    .forEach(p -> terminal.out()
                            .println("    " + p.name() + ": " + p.meaning()
                                    + (p.otherwise().isEmpty() ? "" : " (else " + p.otherwise() + ")")));
        }
    }

    private void list(HouseStore houses) {
        List<Revision> all = houses.properties().list();
        if (output.json()) {
            terminal.out().println(Json.text(Json.list(all, PropertyCommand::json)));
            return;
        }
        if (all.isEmpty()) {
            terminal.out().println("No property is stored.");
        }
        all.forEach(r ->
                terminal.out().println(r.house() + ": " + r.name() + ", revision " + r.number() + " by " + r.who()));
    }

    private static com.fasterxml.jackson.databind.JsonNode json(Revision r) {
        return Json.tree(Map.of("property", r.house(), "name", r.name(), "revision", r.number()));
    }

    private void load(HouseStore houses, Path file) {
        PropertyFiles.Written written = PropertyFiles.read(file).get();
        Property property = written.property();
        Revision none = new Revision(property.id(), property.said(), 0, Instant.EPOCH, "", "", false, "");
        Joined joined = joined(houses, new StoredProperty(property, none));
        List<Problem> wrong = placed(joined.dangling(), written.positions());
        if (!wrong.isEmpty()) {
            throw new ProblemException(wrong);
        }
        List<Problem> warnings = placed(joined.missing(), written.positions());
        if (!warnings.isEmpty()) {
            terminal.err().print(ProblemText.write(warnings));
        }
        long newest = houses.properties()
                .find(property.id())
                .map(p -> p.revision().number())
                .orElse(0L);
        if (newest > 0 && !replace) {
            throw wrong(
                    ProblemKind.CONFLICT,
                    "Property '" + property.id() + "' is stored already.",
                    "Say --replace to store it as the next revision.");
        }
        Revision made = houses.properties().put(property, newest, who(), why).get();
        if (output.json()) {
            terminal.out().println(Json.text(json(made)));
        } else {
            terminal.out()
                    .println("Stored the property " + made.house() + " (" + made.name() + ") as revision "
                            + made.number() + ".");
        }
    }

    private static List<Problem> placed(Map<String, Problem> problems, Map<String, Where> positions) {
        List<Problem> placed = new ArrayList<>();
        problems.forEach((at, p) -> placed.add(
                new Problem(p.kind(), p.severity(), positions.getOrDefault(at, p.where()), p.message(), p.cure())));
        return placed;
    }

    private void begin(HouseStore houses, Property property) {
        String unit = word(1, "a unit");
        Property.Part part = Optional.ofNullable(property.parts().get(unit))
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "The property " + property.id() + " has no unit " + unit + ".",
                        "It has " + String.join(", ", property.parts().keySet()) + "."));
        Property.UnitType type = Optional.ofNullable(part.type())
                .map(t -> property.types().get(t))
                .orElseThrow(() -> wrong(
                        ProblemKind.MISSING,
                        unit + " has no type to begin from.",
                        "Give it one in the property file: type: two-room."));
        StoredHouse pattern = houses.findHouse(type.house()).orElseThrow(() -> Houses.notFound(type.house()));
        House copy = HouseFiles.parse("copy", HouseWriter.copy(pattern.house(), part.house(), part.said()))
                .get();
        Revision made = houses.put(
                        copy,
                        0,
                        who(),
                        why.isEmpty()
                                ? "begun as a copy of " + type.house() + ", revision "
                                        + pattern.revision().number() + "; all of it assumed"
                                : why)
                .get();
        terminal.out()
                .println("Stored " + made.house() + " as revision " + made.number()
                        + ": all of it is assumed until it is" + " seen in this unit.");
    }

    private static Joined joined(HouseStore houses, StoredProperty stored) {
        return new Joined(stored, houses::findHouse, s -> Derivation.derive(s.house()));
    }

    private StoredProperty find(HouseStore houses) {
        String id = word(0, "a property");
        return houses.properties()
                .find(id)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "There is no property '" + id + "'.",
                        "The command property list tells those that there are."));
    }

    private Map<String, String> parameters() {
        Map<String, String> parameters = new LinkedHashMap<>();
        for (String w : words.subList(2, words.size())) {
            int equals = w.indexOf('=');
            if (equals < 1) {
                throw wrong(ProblemKind.BAD_VALUE, "'" + w + "' is no parameter.", "Write name=value.");
            }
            parameters.put(w.substring(0, equals), w.substring(equals + 1));
        }
        return parameters;
    }

    private String word(int at, String what) {
        if (words.size() <= at) {
            throw wrong(
                    ProblemKind.MISSING, "Here " + what + " has to be named.", "splicebook property --help tells how.");
        }
        return words.get(at);
    }

    private static String who() {
        return System.getProperty("user.name", "someone");
    }

    private static ProblemException wrong(ProblemKind kind, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.NOWHERE, message, cure));
    }
}
