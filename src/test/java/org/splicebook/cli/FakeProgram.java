package org.splicebook.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.splicebook.archive.Archive;
import org.splicebook.archive.Restore;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.people.MemoryPeople;
import org.splicebook.people.People;
import org.splicebook.people.Registry;
import org.splicebook.people.Visitor;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.PlanSheet;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.HouseSheets;
import org.splicebook.web.SheetPdf;
import org.splicebook.wiring.Derivation;

/** A program for tests: a store in memory, no network, and what was printed. */
final class FakeProgram implements Program {
    final MemoryStore store = new MemoryStore();
    final StringWriter out = new StringWriter();
    final StringWriter err = new StringWriter();
    final MemoryFiles files = new MemoryFiles();
    final MemoryPeople people = new MemoryPeople();
    String address;
    boolean isAway;
    boolean waited;

    /** Runs a command, forgets what was printed before, and returns the exit code. */
    int run(String... args) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return Commands.run(this, new Terminal(new PrintWriter(out), new PrintWriter(err), 80, false), args);
    }

    String out() {
        return out.toString();
    }

    String err() {
        return err.toString();
    }

    @Override
    public byte[] sheet(
            HouseStore houses,
            org.splicebook.store.Files files,
            StoredHouse stored,
            String kind,
            String of,
            String paper) {
        return HouseSheets.pdf(houses, files, stored, kind, of, paper);
    }

    @Override
    public byte[] paper(UpgradePlan plan, List<Page> pages, String stamp) {
        return SheetPdf.of(PlanSheet.of(plan, pages, stamp), Paper.A4);
    }

    @Override
    public HouseStore open(StoreChoice choice) {
        if (isAway) {
            throw new ProblemException(
                    Problem.error(ProblemKind.STORE_AWAY, Where.NOWHERE, "The store is away.", "Try later."));
        }
        return new AnsweringStore(store, Derivation::derive);
    }

    @Override
    public List<Revision> restore(StoreChoice choice, Path archive, Progress progress) {
        try (Archive read = Archive.open(archive)) {
            return Restore.all(read, open(choice), files, progress);
        }
    }

    @Override
    public MemoryFiles files(StoreChoice choice) {
        return files;
    }

    /** {@return the people, as commands reach them} */
    People people() {
        return new People(people, Clock.systemUTC(), () -> Visitor.OWNER, () -> {});
    }

    @Override
    public Registry people(StoreChoice choice) {
        return people();
    }

    @Override
    public Optional<String> address(StoreChoice choice) {
        return Optional.ofNullable(address);
    }

    @Override
    public Server serve(StoreChoice choice, Listen listen) {
        HouseStore opened = open(choice);
        return new Server() {
            @Override
            public String url() {
                return "http://127.0.0.1:7391";
            }

            @Override
            public String caution() {
                return "";
            }

            @Override
            public HouseStore store() {
                return opened;
            }

            @Override
            public void await() {
                waited = true;
            }

            @Override
            public void close() {
                opened.close();
            }
        };
    }

    @Override
    public List<String> command(List<String> arguments) {
        throw new UnsupportedOperationException("no process in tests of commands");
    }

    @Override
    public Path sampleHouse() {
        return Path.of("src/test/resources/org/splicebook/housefile/alder-row.yaml");
    }

    @Override
    public String version() {
        return "9.8.7";
    }
}
