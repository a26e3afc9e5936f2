package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.people.Grant;
import org.splicebook.people.Issued;
import org.splicebook.people.Registry;
import org.splicebook.people.Role;
import org.splicebook.people.Scope;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.render.SquareText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "invite",
        description = {
            "Lets somebody in for one house without a name and password.",
            "As it is, a code and a square for a phone on the home network: for the first who takes it within 15 minutes, to record"
                    + " for a day. With --days a link that shows the house, as often as it is opened, until it is over."
        })
final class InviteCommand implements Callable<Integer> {
    private static final int MINUTES = 15;

    private final Program program;
    private final Terminal terminal;

    @Parameters(index = "0", arity = "0..1", paramLabel = "HOUSE", description = "The house.")
    private String house = "";

    @Option(names = "--for", paramLabel = "WORDS", description = "Whom it is for: what the record calls them.")
    private String label = "";

    @Option(names = "--days", paramLabel = "DAYS", description = "A link to read by that lasts so many days.")
    private @Nullable Integer days;

    @Option(names = "--role", paramLabel = "ROLE", description = "reader or recorder, where not as usual.")
    private @Nullable String role;

    @Option(names = "--at", paramLabel = "URL", description = "The address by which others reach the server.")
    private @Nullable String at;

    @Option(
            names = "--withdraw",
            paramLabel = "ID",
            description = "Takes an invitation away; who came in by it is out.")
    private @Nullable String withdraw;

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    InviteCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (Registry people = program.people(store.choice())) {
            if (withdraw != null) {
                terminal.out()
                        .println("Invitation "
                                + people.removeInvitation(withdraw).get().id() + " lets nobody in any more.");
                return ExitCodes.OK;
            }
            if (house.isEmpty()) {
                throw wrong(ProblemKind.MISSING, "HOUSE", "No house is named.", "Say which: invite pear-tree-house.");
            }
            boolean once = days == null;
            String said = role == null ? (once ? Role.RECORDER : Role.READER).word() : role;
            Role may = Role.of(said)
                    .orElseThrow(() -> wrong(
                            ProblemKind.BAD_VALUE,
                            "--role",
                            "'" + said + "' is not a role.",
                            "Say reader or recorder."));
            String url = at == null
                    ? program.address(store.choice())
                            .orElseThrow(() -> wrong(
                                    ProblemKind.REFUSED,
                                    "--at",
                                    "No server runs here that others reach.",
                                    "Start one, with a user: serve --host 0.0.0.0; or say its address with --at."))
                    : at.replaceAll("/+$", "");
            Issued made = people.invite(
                            label.isBlank() ? (once ? "survey phone" : "contractor") : label,
                            new Grant(may, Scope.house(house)),
                            days == null ? Duration.ofMinutes(MINUTES) : Duration.ofDays(days),
                            once)
                    .get();
            print(made, url + "/join/" + made.secret(), once);
        }
        return ExitCodes.OK;
    }

    private void print(Issued made, String link, boolean once) {
        if (output.json()) {
            ObjectNode o = Json.object();
            o.put("id", made.id());
            o.put("link", link);
            o.put("expires", String.valueOf(made.expires()));
            terminal.out().println(Json.text(o));
            return;
        }
        SquareText.lines(link, terminal.attended()).forEach(terminal.out()::println);
        terminal.out().println(link);
        terminal.out()
                .println(
                        once
                                ? "For the first who opens it until " + made.expires() + ". The code alone: "
                                        + made.secret()
                                : "For whoever has the link, until " + made.expires() + ".");
        terminal.out().println("It is taken away with: invite --withdraw " + made.id());
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
