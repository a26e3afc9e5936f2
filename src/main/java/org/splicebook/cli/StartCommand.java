package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Reply;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemText;
import org.splicebook.render.ReplyJson;
import org.splicebook.render.ReplyText;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "start",
        description =
                "Opens the store, loads the sample house if no house is stored, prints three answers, and serves until stopped.")
final class StartCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What the sample house is asked: a bath whose protection sits elsewhere, what goes with it, and the labels on the panel's door. */
    private static final List<Asked> ASKED = List.of(
            new Asked("protected-by", Map.of("point", "bath-1.top")),
            new Asked("what-goes-off", Map.of("thing", "shop-gf")),
            new Asked("wrong-labels", Map.of()));

    @Option(names = "--once", description = "Quit after printing.")
    private boolean once;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private ListenOptions listen = new ListenOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    StartCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        // Read while the database starts.
        CompletableFuture<Result<House>> sample =
                CompletableFuture.supplyAsync(() -> HouseFiles.read(program.sampleHouse()));
        try (Program.Server server = program.serve(store.choice(), listen.listen())) {
            HouseStore houses = server.store();
            List<Reply> replies = replies(houses, sample.join().get());
            if (output.json()) {
                json(replies, server.url());
            } else {
                text(replies, server.url());
            }
            terminal.out().flush();
            if (!once) {
                server.await();
            }
        }
        return ExitCodes.OK;
    }

    private List<Reply> replies(HouseStore houses, House sample) {
        boolean isNew = houses.listHouses().isEmpty();
        if (!isNew && houses.findHouse(sample.id()).isEmpty()) {
            return List.of();
        }
        ASKED.forEach(a -> houses.prepare(a.question(), sample.id(), a.parameters()));
        if (isNew) {
            var unused = new Loader(houses, "start", "the sample house", Progress.NONE).load(List.of(sample), false);
        }
        List<Reply> replies = new ArrayList<>();
        // Side by side: the first time that a question is asked, planning it takes most of the time.
        for (Result<Reply> reply : ASKED.parallelStream()
                .map(asked -> ask(houses, sample.id(), asked))
                .toList()) {
            if (reply.isOk()) {
                replies.add(reply.get());
            } else {
                // Who changed the sample house may have taken away what is asked about: that is told, and no reason not
                // to serve.
                terminal.err().print(ProblemText.write(reply.problems()));
            }
        }
        return replies;
    }

    /** The first question finds a cold database, so one that was too slow is asked once more. */
    private static Result<Reply> ask(HouseStore houses, String house, Asked asked) {
        Result<Reply> first = houses.ask(asked.question(), house, asked.parameters());
        boolean isSlow = first.problems().stream().anyMatch(p -> p.kind() == ProblemKind.TOO_SLOW);
        return isSlow ? houses.ask(asked.question(), house, asked.parameters()) : first;
    }

    private void json(List<Reply> replies, String url) {
        ObjectNode o = Json.object();
        o.put("url", url);
        o.set("replies", Json.list(replies, ReplyJson::write));
        terminal.out().println(Json.text(o));
    }

    private void text(List<Reply> replies, String url) {
        int width = output.width(terminal);
        for (Reply reply : replies) {
            terminal.out().println(ReplyText.brief(reply, width));
        }
        if (!replies.isEmpty()) {
            terminal.out().println("The command ask prints the reasons too, and what is not proven.");
            terminal.out().println(ReplyText.care(assumed(replies), Caution.forWhat(Leads.TO_A_WIRE), width));
        }
        terminal.out().println((once ? "Served at " : "Serving until Ctrl-C at ") + url);
    }

    private static List<String> assumed(List<Reply> replies) {
        return replies.stream()
                .flatMap(r -> r instanceof Answer a ? a.assumed().stream() : Stream.of(Assumption.NO_BURIED_TAP))
                .distinct()
                .toList();
    }

    /** A question of the sample house. */
    private record Asked(String question, Map<String, String> parameters) {}
}
