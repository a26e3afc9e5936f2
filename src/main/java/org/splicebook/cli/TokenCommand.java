package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Issued;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.Token;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.Table;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "token",
        description =
                "Tokens that let programs use the API as a user: add shows one once, it is sent as Authorization: Bearer TOKEN.")
final class TokenCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What to do. */
    enum Deed {
        ADD,
        LIST,
        REMOVE
    }

    @Parameters(index = "0", paramLabel = "add|list|remove", description = "What to do.")
    private Deed deed = Deed.LIST;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "USER|ID",
            description = "With add whose it is, with remove which one.")
    private String which = "";

    @Option(names = "--for", paramLabel = "WORDS", description = "With add: what it is for.")
    private String label = "";

    @Option(
            names = "--at-most",
            paramLabel = "ROLE",
            description = "With add: the highest role it has; else its user's.")
    private String atMost = Role.MANAGER.word();

    @Option(
            names = "--days",
            paramLabel = "DAYS",
            description = "With add: how long it lasts; else until it is removed.")
    private @Nullable Integer days;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    TokenCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (deed != Deed.LIST && which.isEmpty()) {
            throw wrong(ProblemKind.MISSING, "USER", "Nothing is named.", "Say token add USER, or token remove ID.");
        }
        try (Registry people = program.people(store.choice())) {
            switch (deed) {
                case LIST -> list(people.tokens());
                case ADD -> add(people);
                case REMOVE -> {
                    Token gone = people.removeToken(which).get();
                    terminal.out().println("Token " + gone.id() + " of " + gone.user() + " lets nobody in any more.");
                }
            }
        }
        return ExitCodes.OK;
    }

    private void add(Registry people) {
        Role most = Role.of(atMost)
                .orElseThrow(() -> wrong(
                        ProblemKind.BAD_VALUE,
                        "--at-most",
                        "'" + atMost + "' is not a role.",
                        "Say reader, recorder or manager."));
        Issued made = people.addToken(which, label, most, days == null ? null : Duration.ofDays(days))
                .get();
        if (output.json()) {
            ObjectNode o = Json.object();
            o.put("id", made.id());
            o.put("token", made.secret());
            if (made.expires() != null) {
                o.put("expires", made.expires().toString());
            }
            terminal.out().println(Json.text(o));
            return;
        }
        terminal.out().println("Token " + made.id() + " of " + which + ", shown this once:");
        terminal.out().println(made.secret());
        terminal.out()
                .println(
                        made.expires() == null
                                ? "It lasts until it is removed."
                                : "It lasts until " + made.expires() + ".");
    }

    private void list(List<Token> tokens) {
        if (output.json()) {
            terminal.out().println(Json.text(Json.list(tokens, t -> {
                ObjectNode o = Json.object();
                o.put("id", t.id());
                o.put("user", t.user());
                o.put("for", t.label());
                o.put("atMost", t.atMost().word());
                o.put("made", t.made().toString());
                if (t.expires() != null) {
                    o.put("expires", t.expires().toString());
                }
                return o;
            })));
        } else if (tokens.isEmpty()) {
            terminal.out().println("No token yet.");
        } else {
            new Table(
                            List.of("token", "user", "for", "at most", "until"),
                            tokens.stream()
                                    .map(t -> List.of(
                                            t.id(),
                                            t.user(),
                                            t.label(),
                                            t.atMost().word(),
                                            t.expires() == null
                                                    ? ""
                                                    : t.expires().toString()))
                                    .toList())
                    .lines(output.width(terminal))
                    .forEach(terminal.out()::println);
        }
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
