package org.splicebook.graph;

import static java.util.Map.entry;

import com.sun.management.OperatingSystemMXBean;
import inet.ipaddr.IPAddressString;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.neo4j.configuration.GraphDatabaseInternalSettings;
import org.neo4j.configuration.GraphDatabaseSettings;
import org.neo4j.configuration.GraphDatabaseSettings.CheckpointPolicy;
import org.neo4j.configuration.GraphDatabaseSettings.LogQueryLevel;
import org.neo4j.configuration.connectors.BoltConnector;
import org.neo4j.configuration.connectors.HttpConnector;
import org.neo4j.configuration.connectors.HttpsConnector;
import org.neo4j.configuration.helpers.SocketAddress;
import org.neo4j.graphdb.config.Setting;
import org.neo4j.io.ByteUnit;

/** The settings of the embedded database: small, quiet, closed. */
final class EmbeddedSettings {
    private static final String LOOPBACK = "127.0.0.1";

    private static final long LEAST_PAGES = ByteUnit.mebiBytes(96);
    private static final long MOST_PAGES = ByteUnit.gibiBytes(1);

    private EmbeddedSettings() {}

    /**
     * {@return how many bytes of the store may be kept in memory: an eighth of the machine's, within bounds. They are taken as they are
     * needed, so a small store takes little}
     *
     * @param machine the memory of the machine or container in bytes
     */
    static long pages(long machine) {
        return Math.max(LEAST_PAGES, Math.min(MOST_PAGES, machine / 8));
    }

    private static long machine() {
        return ManagementFactory.getOperatingSystemMXBean() instanceof OperatingSystemMXBean os
                ? os.getTotalMemorySize()
                : 0;
    }

    /**
     * The settings.
     *
     * @param home the database's folder
     * @param bolt whether it listens
     */
    static Map<Setting<?>, Object> of(Path home, boolean bolt) {
        return Map.ofEntries(
                // Bolt on loopback, a port of the system's choice, never without the secret. Guessing 256 bits is
                // hopeless, so no
                // lock-out: with one, any page in a browser could lock us out of our own store.
                entry(BoltConnector.enabled, bolt),
                entry(BoltConnector.listen_address, new SocketAddress(LOOPBACK, 0)),
                entry(BoltConnector.advertised_address, new SocketAddress(LOOPBACK, 0)),
                entry(HttpConnector.enabled, false),
                entry(HttpsConnector.enabled, false),
                entry(GraphDatabaseSettings.auth_enabled, true),
                entry(GraphDatabaseSettings.auth_max_failed_attempts, 0),
                // Closed: no file and no address can be read from Cypher, and few procedures can be called.
                entry(GraphDatabaseSettings.allow_file_urls, false),
                entry(GraphDatabaseSettings.load_csv_file_url_root, home.resolve("import")),
                entry(
                        GraphDatabaseInternalSettings.cypher_ip_blocklist,
                        List.of(new IPAddressString("0.0.0.0/0"), new IPAddressString("::/0"))),
                entry(
                        GraphDatabaseSettings.procedure_allowlist,
                        List.of(
                                "db.labels",
                                "db.relationshipTypes",
                                "db.propertyKeys",
                                "db.schema.*",
                                "dbms.components")),
                // Bounded.
                entry(GraphDatabaseSettings.pagecache_memory, pages(machine())),
                entry(GraphDatabaseSettings.transaction_timeout, Duration.ofMinutes(5)),
                entry(GraphDatabaseSettings.transaction_monitor_check_interval, Duration.ofMillis(500)),
                entry(GraphDatabaseSettings.memory_transaction_max_size, ByteUnit.mebiBytes(512)),
                entry(GraphDatabaseSettings.forbid_exhaustive_shortestpath, true),
                // Small and quiet.
                entry(GraphDatabaseSettings.keep_logical_logs, "keep_none"),
                entry(GraphDatabaseSettings.logical_log_rotation_threshold, ByteUnit.mebiBytes(25)),
                entry(GraphDatabaseSettings.preallocate_logical_logs, false),
                // By what was written rather than by time: loading many houses would leave gigabytes of log until the
                // next quarter of an hour, and a start after a kill would read them all.
                entry(GraphDatabaseSettings.check_point_policy, CheckpointPolicy.VOLUME),
                entry(GraphDatabaseSettings.check_point_interval_volume, ByteUnit.mebiBytes(128)),
                entry(GraphDatabaseSettings.log_queries, LogQueryLevel.OFF),
                entry(GraphDatabaseSettings.debug_log_enabled, false),
                entry(GraphDatabaseInternalSettings.dump_diagnostics, false),
                entry(GraphDatabaseSettings.udc_enabled, false),
                entry(BoltConnector.server_bolt_telemetry_enabled, false),
                // Otherwise closing takes ten seconds.
                entry(GraphDatabaseInternalSettings.netty_server_shutdown_quiet_period, 0));
    }
}
