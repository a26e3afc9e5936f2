package org.splicebook.graph;

import java.nio.file.Path;
import java.time.Duration;
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
 * after the folder, it listens there; told a password after that, it has that one.
 */
public final class PlainServer {
    private PlainServer() {}

    public static void main(String[] arguments) throws Exception {
        int wanted = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 0;
        DatabaseManagementService dbms = new DatabaseManagementServiceBuilder(Path.of(arguments[0]))
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
        String password = arguments.length > 2 ? arguments[2] : Secret.random();
        GraphDatabaseAPI system = (GraphDatabaseAPI) dbms.database("system");
        system.executeTransactionally(
                "ALTER USER neo4j SET PASSWORD $password CHANGE NOT REQUIRED", Map.of("password", password));
        int port = system.getDependencyResolver()
                .resolveDependency(ConnectorPortRegister.class)
                .getLocalAddress(ConnectorType.BOLT)
                .getPort();
        System.out.println("bolt://127.0.0.1:" + port + " " + password);
        while (System.in.read() >= 0) {
            // Until the parent ends.
        }
        dbms.shutdown();
    }
}
