package org.splicebook.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.render.TallyText;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Tally;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

@Command(
        name = "check-all",
        description =
                "Checks every stored house, several at once: how much is found in each, the worst first, and how often each rule finds.")
final class CheckAllCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Mixin
    private PackOptions packs = new PackOptions();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    CheckAllCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws InterruptedException {
        Function<House, Pack> pack = packs.packs();
        try (HouseStore houses = program.open(store.choice());
                Bar bar = new Bar("Checking", terminal)) {
            List<Tally> all = check(houses, pack, bar);
            terminal.out()
                    .print(
                            output.json()
                                    ? Json.text(TallyText.json(all)) + "\n"
                                    : TallyText.write(all, output.width(terminal)));
        }
        return ExitCodes.OK;
    }

    /** Each thread takes the next house; nothing is shared but the store. */
    private static List<Tally> check(HouseStore houses, Function<House, Pack> pack, Progress progress)
            throws InterruptedException {
        List<String> ids = houses.listHouses().stream().map(Revision::house).toList();
        ExecutorService pool = Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            List<Future<List<Tally>>> running = new ArrayList<>();
            ids.forEach(id -> running.add(pool.submit(() -> houses.findHouse(id).stream()
                    .map(h -> Tally.of(Checked.of(h.house(), pack.apply(h.house()))))
                    .toList())));
            List<Tally> all = new ArrayList<>();
            for (int i = 0; i < running.size(); i++) {
                all.addAll(running.get(i).get());
                progress.at(i + 1L, ids.size(), ids.get(i));
            }
            all.sort(Tally.WORST_FIRST);
            return all;
        } catch (ExecutionException e) {
            throw e.getCause() instanceof RuntimeException r ? r : new IllegalStateException(e.getCause());
        } finally {
            pool.shutdownNow();
        }
    }
}
