package org.splicebook.app;

import java.io.File;
import java.net.URI;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.splicebook.archive.Archive;
import org.splicebook.archive.Restore;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.cli.Program;
import org.splicebook.graph.Neo4jHouseStore;
import org.splicebook.graph.Stores;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.people.Estates;
import org.splicebook.people.GuardedStore;
import org.splicebook.people.People;
import org.splicebook.people.PeopleStore;
import org.splicebook.people.Registry;
import org.splicebook.people.Secrets;
import org.splicebook.people.StoredEstates;
import org.splicebook.people.Visitor;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.PlanSheet;
import org.splicebook.store.FolderFiles;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.HouseSheets;
import org.splicebook.web.ServedStore;
import org.splicebook.web.SheetPdf;
import org.splicebook.web.WebServer;
import org.splicebook.web.WebSettings;
import org.splicebook.wiring.Derivation;

/** The program as it runs: opens stores and starts servers as configured. */
final class Splicebook implements Program {
    private static final Logger LOG = LoggerFactory.getLogger(Splicebook.class);

    private final Configuration configuration;

    Splicebook(Configuration configuration) {
        this.configuration = configuration;
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
        if (configuration.server(choice).isEmpty()) {
            Optional<ServedStore> served = ServerNote.find(configuration.data(choice));
            if (served.isPresent()) {
                return served.get();
            }
        }
        return openHere(choice).forItsOwner();
    }

    @Override
    public List<Revision> restore(StoreChoice choice, Path archive, Progress progress) {
        HouseStore opened = open(choice);
        try (opened) {
            if (opened instanceof ServedStore served) {
                return served.restore(archive);
            }
            try (Archive read = Archive.open(archive)) {
                return Restore.all(read, opened, files(choice), progress);
            }
        }
    }

    @Override
    public FolderFiles files(StoreChoice choice) {
        return new FolderFiles(configuration.data(choice).resolve("files"));
    }

    @Override
    public Registry people(StoreChoice choice) {
        if (configuration.server(choice).isEmpty()) {
            Optional<ServedStore> served = ServerNote.find(configuration.data(choice));
            if (served.isPresent()) {
                return served.get().people();
            }
        }
        Opened opened = openHere(choice);
        return new People(opened.people(), Clock.systemUTC(), () -> Visitor.OWNER, opened.store()::close);
    }

    @Override
    public Optional<String> address(StoreChoice choice) {
        return ServerNote.address(configuration.data(choice));
    }

    /** A store that was opened in this process, with its people. */
    private record Opened(HouseStore store, PeopleStore people) {
        /** {@return the store as the owner of this process uses it: all of it, each change logged} */
        HouseStore forItsOwner() {
            return new GuardedStore(store, people, Clock.systemUTC(), () -> Visitor.OWNER, Estates.NONE);
        }
    }

    private Opened openHere(StoreChoice choice) {
        Neo4jHouseStore store = configuration
                .server(choice)
                .map(s -> Stores.server(
                        URI.create(s.uri()),
                        s.user(),
                        s.password(),
                        new HouseRecordText(),
                        Clock.systemUTC(),
                        Derivation::derive,
                        questionsForServer(choice)))
                .orElseGet(() -> Stores.embedded(
                        configuration.data(choice),
                        new HouseRecordText(),
                        Clock.systemUTC(),
                        Derivation::derive,
                        choice.queries()));
        store.refusedQuestions().forEach(p -> LOG.warn("A question is left out: {}", p.said()));
        return new Opened(new AnsweringStore(store, Derivation::derive), store.people());
    }

    /** The data folder's own questions go with a server's store too; the embedded one finds them itself. */
    private List<Path> questionsForServer(StoreChoice choice) {
        List<Path> folders = new ArrayList<>(choice.queries());
        Path own = configuration.data(choice).resolve("queries");
        if (Files.isDirectory(own)) {
            folders.add(own);
        }
        return folders;
    }

    @Override
    public Server serve(StoreChoice choice, Listen listen) {
        String key = Secrets.random();
        WebSettings settings = configuration.web(listen, version(), key);
        Optional<Path> folder =
                configuration.server(choice).isPresent() ? Optional.empty() : Optional.of(configuration.data(choice));
        folder.flatMap(ServerNote::find).ifPresent(running -> {
            throw new ProblemException(Problem.error(
                    ProblemKind.STORE_AWAY,
                    Where.NOWHERE,
                    "A server already has this store, at " + running.url() + ".",
                    "Use that one, or choose another folder with --data."));
        });
        Opened opened = openHere(choice);
        try {
            requireUsers(settings, opened.people());
            WebServer web = WebServer.start(
                    opened.store(),
                    files(choice),
                    settings,
                    opened.people(),
                    new StoredEstates(opened.store(), Clock.systemUTC()));
            folder.ifPresent(f -> ServerNote.leave(f, web.commandUrl(), key, Reached.address(settings, web)));
            return new LiveServer(
                    web, opened.forItsOwner(), Reached.caution(settings), () -> folder.ifPresent(ServerNote::remove));
        } catch (RuntimeException e) {
            opened.store().close();
            throw e;
        }
    }

    private static void requireUsers(WebSettings settings, PeopleStore people) {
        if (settings.door().login() && people.users().isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "Others would reach this server, and there is no user yet who could sign in.",
                    "Add one first: user add NAME --role manager."));
        }
    }

    @Override
    public List<String> command(List<String> arguments) {
        List<String> command = new ArrayList<>();
        String home = System.getProperty("splicebook.home");
        if (home != null && Files.isExecutable(Path.of(home, "bin", "splicebook"))) {
            command.add(Path.of(home, "bin", "splicebook").toString());
            command.addAll(arguments);
            return List.copyOf(command);
        }
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        if (home != null) {
            command.add("-Dsplicebook.home=" + home);
        }
        command.addAll(List.of("-cp", classPath(), Main.class.getName()));
        command.addAll(arguments);
        return List.copyOf(command);
    }

    /** Started from its sources, the program has a class loader of its own, and the Java machine's class path is the build tool's. */
    private static String classPath() {
        if (Main.class.getClassLoader() instanceof URLClassLoader own) {
            return Arrays.stream(own.getURLs())
                    .map(url -> Path.of(URI.create(url.toString())).toString())
                    .collect(Collectors.joining(File.pathSeparator));
        }
        return System.getProperty("java.class.path");
    }

    @Override
    public Path sampleHouse() {
        return Path.of(System.getProperty("splicebook.home", ""), "sample-house");
    }

    @Override
    public String version() {
        return Objects.requireNonNullElse(Splicebook.class.getPackage().getImplementationVersion(), "development");
    }
}
