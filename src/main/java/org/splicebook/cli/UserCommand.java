package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.splicebook.people.Grant;
import org.splicebook.people.Registry;
import org.splicebook.people.User;
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
        name = "user",
        description = {
            "Who may sign in, and what for. A server that others reach does not start without a user.",
            "Roles: reader reads and asks; recorder records too; manager looks after people too and takes houses away."
                    + " reader@HOUSE is for one house, reader@property:NAME for the houses of one property."
        })
final class UserCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What to do. */
    enum Deed {
        ADD,
        LIST,
        REMOVE,
        PASSWORD,
        ROLE
    }

    @Parameters(index = "0", paramLabel = "add|list|remove|password|role", description = "What to do.")
    private Deed deed = Deed.LIST;

    @Parameters(index = "1", arity = "0..1", paramLabel = "NAME", description = "The user; not for list.")
    private String name = "";

    @Option(
            names = "--role",
            paramLabel = "ROLE",
            split = ",",
            description = "With add and role: what the user may do; several add up.")
    private List<String> roles = new ArrayList<>();

    @Mixin
    private PasswordOption password = new PasswordOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    UserCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (deed != Deed.LIST && name.isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.MISSING,
                    Where.field("NAME"),
                    "No user is named.",
                    "Name one: user add ann --role reader."));
        }
        List<Grant> grants = roles.stream().map(r -> Grant.parse(r).get()).toList();
        try (Registry people = program.people(store.choice())) {
            switch (deed) {
                case LIST -> list(people.users());
                case ADD ->
                    told(people.addUser(name, password.password(), grants).get(), "may now sign in");
                case PASSWORD ->
                    told(
                            people.setPassword(name, password.password()).get(),
                            "has another password; their sessions ended");
                case ROLE -> told(people.setGrants(name, grants).get(), "has other roles");
                case REMOVE -> told(people.removeUser(name).get(), "is removed, with sessions and tokens");
            }
        }
        return ExitCodes.OK;
    }

    private void told(User user, String what) {
        if (output.json()) {
            ObjectNode o = tree(user);
            if (!password.made().isEmpty()) {
                o.put("password", password.made());
            }
            terminal.out().println(Json.text(o));
            return;
        }
        terminal.out().println(user.name() + " " + what + ": " + said(user) + ".");
        if (!password.made().isEmpty()) {
            terminal.out().println("The password, shown this once: " + password.made());
            terminal.out().println("It is changed on the page /account, or with: user password " + user.name());
        }
    }

    private void list(List<User> users) {
        if (output.json()) {
            terminal.out().println(Json.text(Json.list(users, UserCommand::tree)));
        } else if (users.isEmpty()) {
            terminal.out().println("No user yet. On this machine nobody has to sign in.");
        } else {
            new Table(
                            List.of("user", "roles", "since", "locked until"),
                            users.stream()
                                    .map(u -> List.of(
                                            u.name(),
                                            said(u),
                                            u.made().toString(),
                                            u.lockedUntil() == null
                                                    ? ""
                                                    : u.lockedUntil().toString()))
                                    .toList())
                    .lines(output.width(terminal))
                    .forEach(terminal.out()::println);
        }
    }

    private static String said(User user) {
        return String.join(", ", user.grants().stream().map(Grant::said).toList());
    }

    private static ObjectNode tree(User user) {
        ObjectNode o = Json.object();
        o.put("name", user.name());
        o.set("roles", Json.tree(user.grants().stream().map(Grant::said).toList()));
        o.put("made", user.made().toString());
        if (user.lockedUntil() != null) {
            o.put("lockedUntil", user.lockedUntil().toString());
        }
        return o;
    }
}
