package org.splicebook.graph;

import java.util.Set;
import org.neo4j.configuration.GraphDatabaseSettings;
import org.neo4j.dbms.api.DatabaseManagementService;
import org.neo4j.internal.kernel.api.procs.ProcedureSignature;
import org.neo4j.kernel.api.QueryLanguage;
import org.neo4j.kernel.api.procedure.GlobalProcedures;
import org.neo4j.kernel.internal.GraphDatabaseAPI;

/**
 * Takes the database's own procedures away but for a few that only read. The setting {@code dbms.security.procedures.allowlist} governs
 * those that are added and leaves the built-in ones.
 */
final class ProcedureShortList {
    /** What may be called: what tools need to look at the graph. */
    static final Set<String> KEPT = Set.of(
            "db.awaitIndex",
            "db.awaitIndexes",
            "db.info",
            "db.labels",
            "db.ping",
            "db.propertyKeys",
            "db.relationshipTypes",
            "db.schema.nodeTypeProperties",
            "db.schema.relTypeProperties",
            "db.schema.visualization",
            "dbms.components",
            "dbms.routing.getRoutingTable",
            "dbms.showCurrentUser");

    private ProcedureShortList() {}

    /** Takes the others away. */
    static void apply(DatabaseManagementService dbms) {
        GraphDatabaseAPI api = (GraphDatabaseAPI) dbms.database(GraphDatabaseSettings.SYSTEM_DATABASE_NAME);
        GlobalProcedures procedures = api.getDependencyResolver().resolveDependency(GlobalProcedures.class);
        procedures
                .getCurrentView()
                .getAllProcedures(QueryLanguage.CYPHER_5)
                .map(ProcedureSignature::name)
                .filter(name -> !KEPT.contains(name.toString()))
                .toList()
                .forEach(procedures::unregister);
    }
}
