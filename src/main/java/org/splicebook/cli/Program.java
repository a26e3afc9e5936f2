package org.splicebook.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.people.Registry;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** What the commands need and may not make themselves. */
public interface Program {
    /**
     * Which store is meant. What is null was not said on the command line: the environment or the default decides.
     *
     * @param data the data folder
     * @param neo4j the URI of a Neo4j server; null for the embedded one in the data folder
     * @param user the server's user
     * @param passwordFile a file with the server's password
     * @param queries folders of further questions
     */
    record StoreChoice(
            @Nullable Path data,
            @Nullable String neo4j,
            @Nullable String user,
            @Nullable Path passwordFile,
            List<Path> queries) {
        public StoreChoice {
            queries = List.copyOf(queries);
        }

        /** A choice without further questions. */
        public StoreChoice(
                @Nullable Path data, @Nullable String neo4j, @Nullable String user, @Nullable Path passwordFile) {
            this(data, neo4j, user, passwordFile, List.of());
        }
    }

    /**
     * Where to listen.
     *
     * @param host the address; null for the default
     * @param port the port; null for the default, 0 for the system's choice
     * @param knownHosts further Host values to answer
     * @param login whether people have to sign in even where only this machine reaches the server
     * @param certificate a PEM file with the certificate to serve HTTPS with; null for HTTP
     * @param key a PEM file with its key
     */
    record Listen(
            @Nullable String host,
            @Nullable Integer port,
            List<String> knownHosts,
            boolean login,
            @Nullable Path certificate,
            @Nullable Path key) {
        /** For this machine alone, over HTTP. */
        public Listen(@Nullable String host, @Nullable Integer port, List<String> knownHosts) {
            this(host, port, knownHosts, false, null, null);
        }
    }

    /** A server that runs until it is closed, with its store. */
    interface Server extends AutoCloseable {
        /** {@return its address} */
        String url();

        /** {@return what whoever started it has to know of its safety; empty where there is nothing} */
        String caution();

        /** {@return its store} */
        HouseStore store();

        /** Waits until the process is told to stop. */
        void await();

        @Override
        void close();
    }

    /** {@return a sheet of a stored house as PDF: where photographs are, its kind, of what (may be empty), the paper} */
    byte[] sheet(HouseStore houses, Files files, StoredHouse stored, String kind, String of, String paper);

    /** {@return the paper of a plan for a new panel as PDF; the stamp stands at the foot of each page} */
    byte[] paper(UpgradePlan plan, List<Page> pages, String stamp);

    /** {@return the store: that of a running server where there is one, else opened in this process} */
    HouseStore open(StoreChoice choice);

    /**
     * Restores an archive into the store, at a running server where there is one.
     *
     * @return the newest revisions of what was restored
     */
    List<Revision> restore(StoreChoice choice, Path archive, Progress progress);

    /** {@return the photographs and documents that go with the store, on this machine} */
    Files files(StoreChoice choice);

    /** {@return the people of the store: of a running server where there is one, else opened in this process} */
    Registry people(StoreChoice choice);

    /** {@return the address by which others reach the running server; empty where none runs, or none but this machine does} */
    Optional<String> address(StoreChoice choice);

    /** {@return a server, started} */
    Server serve(StoreChoice choice, Listen listen);

    /** {@return the command line that runs this program once more, in a process of its own} */
    List<String> command(List<String> arguments);

    /** {@return the folder of the sample house} */
    Path sampleHouse();

    /** {@return the program's version} */
    String version();
}
