package org.splicebook.graph;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.neo4j.driver.AuthTokens;
import org.neo4j.driver.Driver;
import org.neo4j.driver.GraphDatabase;
import org.splicebook.wiring.Derivation;

/** One database for all tests of a run, started when first needed and ended with the run. */
final class OneDatabase implements AutoCloseable {
    private final Neo4jHouseStore store;
    private final String uri;
    private final Driver tool;
    private final Runnable further;

    private OneDatabase(Neo4jHouseStore store, String uri, Driver tool, Runnable further) {
        this.store = store;
        this.uri = uri;
        this.tool = tool;
        this.further = further;
    }

    /** {@return the embedded one} */
    static OneDatabase embedded(ExtensionContext context) {
        return shared(context, "embedded", () -> {
            Path folder = folder("embedded");
            Neo4jHouseStore store = Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
            return new OneDatabase(store, "", store.driver(), () -> delete(folder));
        });
    }

    /** {@return the one in another process} */
    static OneDatabase remote(ExtensionContext context) {
        return shared(context, "remote", () -> {
            Path folder = folder("remote");
            ChildProcess child = ChildProcess.start(PlainServer.class, List.of(folder.toString()));
            String[] said = child.line().split(" ");
            URI uri = URI.create(said[0]);
            Neo4jHouseStore store =
                    Stores.server(uri, "neo4j", said[1], TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
            Driver tool = GraphDatabase.driver(uri, AuthTokens.basic("neo4j", said[1]));
            return new OneDatabase(store, said[0], tool, () -> {
                tool.close();
                child.end();
                delete(folder);
            });
        });
    }

    private static OneDatabase shared(ExtensionContext context, String name, Supplier<OneDatabase> start) {
        return context.getRoot()
                .getStore(ExtensionContext.Namespace.create(OneDatabase.class))
                .getOrComputeIfAbsent(name, k -> start.get(), OneDatabase.class);
    }

    /** {@return the store} */
    Neo4jHouseStore store() {
        return store;
    }

    /** {@return where it is reached, if it is in another process} */
    String uri() {
        return uri;
    }

    /** {@return a way to look and meddle past the store} */
    Driver tool() {
        return tool;
    }

    /** Takes everything away but the schema. */
    void empty() {
        tool.executableQuery("MATCH (n) WHERE NOT n:Schema DETACH DELETE n").execute();
        store.forget();
    }

    @Override
    public void close() {
        store.close();
        further.run();
    }

    static Path folder(String name) {
        try {
            return Files.createTempDirectory("splicebook-" + name + "-");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static void delete(Path folder) {
        try (Stream<Path> all = Files.walk(folder)) {
            all.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
