package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.splicebook.people.AuditEntry;
import org.splicebook.people.Registry;
import org.splicebook.render.Json;
import org.splicebook.render.Table;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "audit", description = "Who changed what, who came in, and who was refused: the newest first.")
final class AuditCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Option(names = "--most", paramLabel = "N", description = "So many entries at most; else 50.")
    private int most = 50;

    @Option(names = "--house", paramLabel = "HOUSE", description = "Of one house alone.")
    private String house = "";

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    AuditCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        List<AuditEntry> entries;
        try (Registry people = program.people(store.choice())) {
            entries = people.audit(most, house);
        }
        if (output.json()) {
            terminal.out().println(Json.text(Json.list(entries, AuditCommand::tree)));
        } else {
            new Table(
                            List.of("at", "who", "what", "house", "more", "from"),
                            entries.stream()
                                    .map(e -> List.of(
                                            e.at().toString(),
                                            e.who().isEmpty() ? way(e) : e.who(),
                                            e.what(),
                                            e.house(),
                                            e.said(),
                                            e.from()))
                                    .toList())
                    .lines(output.width(terminal))
                    .forEach(terminal.out()::println);
        }
        return ExitCodes.OK;
    }

    private static String way(AuditEntry e) {
        return "(" + e.way().name().toLowerCase(Locale.ROOT) + ")";
    }

    private static ObjectNode tree(AuditEntry e) {
        ObjectNode o = Json.object();
        o.put("at", e.at().toString());
        o.put("who", e.who());
        o.put("way", e.way().name().toLowerCase(Locale.ROOT));
        o.put("what", e.what());
        o.put("house", e.house());
        o.put("said", e.said());
        o.put("from", e.from());
        return o;
    }
}
