package org.splicebook.graph;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.neo4j.configuration.GraphDatabaseInternalSettings;
import org.neo4j.configuration.GraphDatabaseSettings;
import org.neo4j.configuration.connectors.BoltConnector;
import org.neo4j.configuration.connectors.ConnectorPortRegister;
import org.neo4j.configuration.connectors.ConnectorType;
import org.neo4j.configuration.helpers.SocketAddress;
import org.neo4j.dbms.api.DatabaseManagementService;
import org.neo4j.dbms.api.DatabaseManagementServiceBuilder;
import org.neo4j.kernel.internal.GraphDatabaseAPI;
import org.neo4j.logging.NullLogProvider;

/**
 * A Neo4j server as someone else would run it: own process, password, none of our settings. Says its address and password. Told a port
 * after the folder, it listens there; told a password after that, it is made with that one. Further threes of folder, port and password are further
 * databases in the same process.
 */
public final class PlainServer {
    private static final int ASKED = 3;

    private PlainServer() {}

    public static void main(String[] arguments) throws Exception {
        List<DatabaseManagementService> all = new ArrayList<>();
        for (int i = 0; i < arguments.length; i += ASKED) {
            int wanted = arguments.length > i + 1 ? Integer.parseInt(arguments[i + 1]) : 0;
            String password = arguments.length > i + 2 ? arguments[i + 2] : Secret.random();
            all.add(start(Path.of(arguments[i]), wanted, password));
        }
        while (System.in.read() >= 0) {
            // Until the parent ends.
        }
        all.forEach(DatabaseManagementService::shutdown);
    }

    private static DatabaseManagementService start(Path folder, int wanted, String password) {
        boolean isNew = !Files.isDirectory(folder.resolve("data"));
        DatabaseManagementService dbms = new DatabaseManagementServiceBuilder(folder)
                .setConfig(BoltConnector.enabled, true)
                .setConfig(BoltConnector.listen_address, new SocketAddress("127.0.0.1", wanted))
                .setConfig(BoltConnector.advertised_address, new SocketAddress("127.0.0.1", wanted))
                .setConfig(GraphDatabaseSettings.auth_enabled, true)
                .setConfig(GraphDatabaseSettings.pagecache_memory, 64L << 20)
                .setConfig(GraphDatabaseSettings.transaction_timeout, Duration.ofMinutes(2))
                .setConfig(GraphDatabaseSettings.udc_enabled, false)
                .setConfig(GraphDatabaseInternalSettings.netty_server_shutdown_quiet_period, 0)
                .setUserLogProvider(NullLogProvider.getInstance())
                .build();
        GraphDatabaseAPI system = (GraphDatabaseAPI) dbms.database("system");
        if (isNew) {
            system.executeTransactionally(
                    "ALTER USER neo4j SET PASSWORD $password CHANGE NOT REQUIRED", Map.of("password", password));
        }
        int port = system.getDependencyResolver()
                .resolveDependency(ConnectorPortRegister.class)
                .getLocalAddress(ConnectorType.BOLT)
                .getPort();
        System.out.println("bolt://127.0.0.1:" + port + " " + password);
        return dbms;
    }
}
