package org.splicebook.graph;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;
import org.neo4j.driver.AccessMode;
import org.neo4j.driver.Driver;
import org.neo4j.driver.Session;
import org.neo4j.driver.exceptions.ClientException;
import org.neo4j.driver.exceptions.Neo4jException;
import org.neo4j.driver.summary.ResultSummary;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.store.DraftedHouse;

/**
 * The questions that can be asked: those that the program brings, and those of further folders. Each file of a folder is explained by the
 * database when it is loaded: one that writes, calls procedures, reads files or walks paths that may never end is refused. The program's
 * own went through the same when it was built; explaining them again would take longer than starting the database.
 */
public final class Questions {
    /** How long a question may wait until it is begun. */
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final Driver driver;
    private final Door door;
    private final Recall recall;
    private final Remembered<KnownHouse> houses;
    private final Remembered<Reply> replies;
    private final Turns turns;
    private final Map<String, QuestionFile> byId = new LinkedHashMap<>();
    private final List<Problem> refused = new ArrayList<>();

    private Questions(Driver driver, Door door, Recall recall) {
        this.driver = driver;
        this.door = door;
        this.recall = recall;
        this.houses = new Remembered<>(recall);
        this.replies = new Remembered<>(recall, asked -> Recall.ANYTHING, Reply.ROWS_KEPT, Reply::weight);
        this.turns = new Turns(door.questionsAtOnce(), PATIENCE);
    }

    /**
     * Loads the questions. A folder that does not exist, or a file that is refused, is told by {@link #refused} and stops nothing.
     *
     * @param driver explains files
     * @param door the way in for asking
     * @param recall whether something may have been written
     * @param folders folders of further questions
     */
    static Questions load(Driver driver, Door door, Recall recall, List<Path> folders) {
        Questions questions = new Questions(driver, door, recall);
        QuestionFolder.builtIn().forEach((origin, text) -> questions.add(origin, text, file -> List.of()));
        for (Path folder : folders) {
            try {
                QuestionFolder.read(folder).forEach((origin, text) -> questions.add(origin, text, questions::look));
            } catch (IOException e) {
                questions.refused.add(problem(
                        folder.toString(),
                        ProblemKind.BAD_PATH,
                        "The folder of questions cannot be read: " + e.getMessage() + ".",
                        "Name a folder that holds files ending in .cypher."));
            }
        }
        return questions;
    }

    /** {@return what can be asked, by id} */
    public List<Question> list() {
        return byId.values().stream().map(QuestionFile::question).toList();
    }

    /** {@return what was refused, and why} */
    public List<Problem> refused() {
        return List.copyOf(refused);
    }

    /**
     * Asks.
     *
     * @param id the question
     * @param house the house; empty for a question across houses
     * @param parameters by name
     */
    public Result<Reply> ask(String id, String house, Map<String, String> parameters) {
        QuestionFile file = byId.get(id);
        if (file == null) {
            return unknown(id);
        }
        Asking asking = new Asking(door, recall, houses, file, house, parameters);
        // What is asked of all houses tells the moment at which it was asked.
        return file.question().acrossHouses() ? turns.take(asking::ask) : remembered(asking, id, house, parameters);
    }

    /** Has the plans made of what is soon to be asked, while this thread does other work. */
    void prepare(String id, String house, Map<String, String> parameters) {
        QuestionFile file = byId.get(id);
        if (file != null && !file.question().acrossHouses()) {
            Asking asking = new Asking(door, recall, houses, file, house, parameters);
            var unused = Begun.begin(asking::prepare);
        }
    }

    /** What is asked again of a house that did not change; a file may ask which day it is. */
    private Result<Reply> remembered(Asking asking, String id, String house, Map<String, String> parameters) {
        String key = house + "/" + id + "/" + LocalDate.now(ZoneId.systemDefault()) + new TreeMap<>(parameters);
        Reply known = replies.find(key);
        if (known != null) {
            return Result.ok(known);
        }
        return turns.take(() -> {
            Reply meanwhile = replies.find(key);
            if (meanwhile != null) {
                return Result.ok(meanwhile);
            }
            long mark = recall.mark(Recall.ANYTHING);
            Result<Reply> asked = asking.ask();
            if (asked.isOk()) {
                replies.keep(key, asked.get(), mark);
            }
            return asked;
        });
    }

    /**
     * Asks about a house as it would be after a draft: its graph is there within the asking's own transaction, which is taken back.
     *
     * @param id the question
     * @param drafted the draft and the house after it
     * @param parameters by name
     * @param projected makes the graph
     */
    Result<Reply> askDraft(
            String id, DraftedHouse drafted, Map<String, String> parameters, Supplier<Projection.OfDraft> projected) {
        QuestionFile file = byId.get(id);
        if (file == null) {
            return unknown(id);
        }
        if (file.question().acrossHouses()) {
            return Result.failed(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("question"),
                    "The question " + id + " goes across houses, and a draft counts as none of them.",
                    "Ask a question about one house."));
        }
        String house = drafted.base().house();
        Asking asking = new Asking(door, recall, houses, file, house, parameters);
        return turns.take(() -> asking.askDraft(projected));
    }

    private Result<Reply> unknown(String id) {
        return Result.failed(Problem.error(
                ProblemKind.NOT_FOUND,
                Where.field("question"),
                "There is no question " + id + ".",
                Nearest.cure(id, byId.keySet())));
    }

    private void add(String origin, String text, Function<QuestionFile, List<Problem>> check) {
        String id = QuestionFolder.id(origin);
        Result<QuestionFile> parsed = QuestionParser.parse(id, origin, text);
        if (!parsed.isOk()) {
            refused.addAll(parsed.problems());
            return;
        }
        if (byId.containsKey(id)) {
            refused.add(problem(
                    origin,
                    ProblemKind.DUPLICATE,
                    "There is a question " + id + " already, in "
                            + byId.get(id).question().origin() + ".",
                    "Give the file another name."));
            return;
        }
        List<Problem> problems = check.apply(parsed.get());
        refused.addAll(problems);
        if (problems.isEmpty()) {
            byId.put(id, parsed.get());
        }
    }

    private List<Problem> look(QuestionFile file) {
        try (Session session = DriverDoor.session(driver, AccessMode.READ)) {
            return look(session, file);
        } catch (Neo4jException e) {
            throw Transactions.problem(e);
        }
    }

    /** Has the database explain the question, which runs nothing, and {@return why it is refused}, empty when it is not. */
    static List<Problem> look(Session session, QuestionFile file) {
        String origin = file.question().origin();
        List<String> columns;
        ResultSummary explained;
        try {
            var result = session.run("EXPLAIN " + file.cypher());
            columns = result.keys();
            explained = result.consume();
        } catch (ClientException e) {
            return List.of(
                    problem(origin, ProblemKind.SYNTAX, "The database does not understand it: " + e.getMessage(), ""));
        }
        List<Problem> problems = new ArrayList<>();
        for (String reason : PlanRules.broken(explained, !file.allowTrails().isEmpty())) {
            problems.add(problem(
                    origin,
                    ProblemKind.REFUSED,
                    "It is refused: " + reason + ".",
                    "A question only reads, in short steps from a named thing."));
        }
        List<String> wanted = file.question().columns();
        if (!columns.equals(wanted)) {
            problems.add(problem(
                    origin,
                    ProblemKind.BAD_VALUE,
                    "It returns " + String.join(", ", columns) + "; its header names " + String.join(", ", wanted)
                            + ".",
                    "Make the two the same."));
        }
        return problems;
    }

    private static Problem problem(String origin, ProblemKind kind, String message, String cure) {
        return Problem.error(kind, new Where(origin, 0, 0, ""), message, cure);
    }
}
