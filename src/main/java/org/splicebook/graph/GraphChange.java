package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.neo4j.driver.Value;
import org.neo4j.driver.Values;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.graph.GraphRows.TieRow;

/**
 * What has to change for stored rows to become others.
 *
 * @param nodesToDelete ids of stored nodes; their relationships go with them
 * @param nodesToSet stored id and new properties
 * @param nodesToCreate indices of the new rows
 * @param tiesToDelete relationships between nodes that stay, by indices of the stored rows
 * @param tiesToCreate relationships by indices of the new rows
 * @param ids for each new row the id of the stored node that it is, empty where it has to be created
 */
record GraphChange(
        List<String> nodesToDelete,
        List<Value> nodesToSet,
        List<Integer> nodesToCreate,
        List<Value> tiesToDelete,
        List<Value> tiesToCreate,
        List<String> ids) {

    static GraphChange between(GraphWriter.Stored stored, GraphRows wanted) {
        Map<String, Integer> wantedAt = new HashMap<>();
        for (int i = 0; i < wanted.nodes().size(); i++) {
            wantedAt.put(identity(wanted.nodes().get(i)), i);
        }
        List<String> ids = new ArrayList<>(Collections.nCopies(wanted.nodes().size(), ""));
        int[] becomes = new int[stored.ids().size()];
        List<String> delete = new ArrayList<>();
        List<Value> set = new ArrayList<>();
        for (int i = 0; i < becomes.length; i++) {
            NodeRow old = stored.rows().nodes().get(i);
            Integer at = wantedAt.get(identity(old));
            becomes[i] = at == null ? -1 : at;
            if (at != null) {
                ids.set(at, stored.ids().get(i));
                if (!old.properties().equals(wanted.nodes().get(at).properties())) {
                    set.add(Values.value(
                            List.of(ids.get(at), wanted.nodes().get(at).properties())));
                }
            } else if (!old.label().equals(GraphWriter.OUTSIDE)) {
                delete.add(stored.ids().get(i));
            }
        }
        List<Integer> create = new ArrayList<>();
        for (int i = 0; i < ids.size(); i++) {
            if (ids.get(i).isEmpty()) {
                create.add(i);
            }
        }
        Map<TieRow, Integer> missing = new HashMap<>();
        wanted.ties().forEach(t -> missing.merge(t, 1, Integer::sum));
        List<Value> tiesToDelete = new ArrayList<>();
        for (TieRow old : stored.rows().ties()) {
            TieRow same = new TieRow(becomes[old.from()], old.type(), becomes[old.to()], old.properties());
            if (missing.getOrDefault(same, 0) > 0) {
                missing.merge(same, -1, Integer::sum);
            } else if (stays(stored, becomes, old.from()) && stays(stored, becomes, old.to())) {
                tiesToDelete.add(GraphWriter.tieValue(old, 0));
            }
        }
        List<Value> tiesToCreate = new ArrayList<>();
        missing.forEach((t, n) -> {
            for (int i = 0; i < n; i++) {
                tiesToCreate.add(GraphWriter.tieValue(t, 0));
            }
        });
        return new GraphChange(delete, set, create, tiesToDelete, tiesToCreate, ids);
    }

    private static boolean stays(GraphWriter.Stored stored, int[] becomes, int i) {
        return becomes[i] >= 0 || stored.rows().nodes().get(i).label().equals(GraphWriter.OUTSIDE);
    }

    private static String identity(NodeRow n) {
        return n.label() + " " + n.others().stream().sorted().toList() + " "
                + n.properties().get("key");
    }
}
