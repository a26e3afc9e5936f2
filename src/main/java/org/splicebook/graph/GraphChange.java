package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.graph.GraphRows.TieRow;

/**
 * What has to change for rows to become others: a pure function of both.
 *
 * @param gone nodes to delete; their relationships go with them
 * @param changed nodes that stay, with their new properties
 * @param made nodes to create
 * @param untied relationships to delete, between nodes that stay
 * @param tied relationships to create
 */
record GraphChange(List<NodeRow> gone, List<NodeRow> changed, List<NodeRow> made, List<Tie> untied, List<Tie> tied) {

    /** A relationship by the nodes that it joins. */
    record Tie(NodeRow from, String type, NodeRow to, Map<String, Object> properties) {}

    /** What relationships are compared by before their properties are. */
    private record Between(int from, String type, int to) {}

    static GraphChange between(GraphRows before, GraphRows after) {
        Map<String, Integer> at = new HashMap<>();
        boolean[] known = new boolean[after.nodes().size()];
        int[] becomes = new int[before.nodes().size()];
        List<NodeRow> gone = new ArrayList<>();
        List<NodeRow> changed = new ArrayList<>();
        for (int i = 0; i < becomes.length; i++) {
            NodeRow old = before.nodes().get(i);
            boolean isInPlace = i < known.length && old.isNamedAs(after.nodes().get(i));
            Integer same = isInPlace ? Integer.valueOf(i) : find(old, after, at);
            becomes[i] = same == null ? -1 : same;
            if (same != null) {
                known[same] = true;
                if (!old.properties().equals(after.nodes().get(same).properties())) {
                    changed.add(after.nodes().get(same));
                }
            } else if (!old.isOutside()) {
                gone.add(old);
            }
        }
        List<NodeRow> made = new ArrayList<>();
        for (int i = 0; i < known.length; i++) {
            if (!known[i]) {
                made.add(after.nodes().get(i));
            }
        }
        List<Tie> untied = new ArrayList<>();
        List<Tie> tied = new ArrayList<>();
        ties(before, after, becomes, untied, tied);
        return new GraphChange(gone, changed, made, untied, tied);
    }

    /** Finds a node of another place in the order; the index is made when it is first needed. */
    private static @Nullable Integer find(NodeRow old, GraphRows after, Map<String, Integer> at) {
        if (at.isEmpty()) {
            for (int i = 0; i < after.nodes().size(); i++) {
                at.put(after.nodes().get(i).identity(), i);
            }
        }
        return at.get(old.identity());
    }

    private static void ties(GraphRows before, GraphRows after, int[] becomes, List<Tie> untied, List<Tie> tied) {
        // Most of two revisions of a house comes in the same order: what is alike from the start and from the end is
        // set aside first.
        List<TieRow> olds = before.ties();
        List<TieRow> news = after.ties();
        int from = 0;
        int least = Math.min(olds.size(), news.size());
        while (from < least && isSame(olds.get(from), news.get(from), becomes)) {
            from++;
        }
        int end = 0;
        while (end < least - from
                && isSame(olds.get(olds.size() - 1 - end), news.get(news.size() - 1 - end), becomes)) {
            end++;
        }
        ties(
                before,
                after,
                olds.subList(from, olds.size() - end),
                news.subList(from, news.size() - end),
                becomes,
                untied,
                tied);
    }

    private static boolean isSame(TieRow old, TieRow now, int[] becomes) {
        return becomes[old.from()] == now.from()
                && becomes[old.to()] == now.to()
                && old.type().equals(now.type())
                && old.properties().equals(now.properties());
    }

    private static void ties(
            GraphRows before,
            GraphRows after,
            List<TieRow> olds,
            List<TieRow> news,
            int[] becomes,
            List<Tie> untied,
            List<Tie> tied) {
        // By the ends first: to hash the properties of all would take longer than everything else here.
        Map<Between, List<TieRow>> wanted = new HashMap<>();
        for (TieRow t : news) {
            wanted.computeIfAbsent(new Between(t.from(), t.type(), t.to()), k -> new ArrayList<>(1))
                    .add(t);
        }
        for (TieRow old : olds) {
            int from = becomes[old.from()];
            int to = becomes[old.to()];
            List<TieRow> same = wanted.getOrDefault(new Between(from, old.type(), to), List.of());
            if (!take(same, old) && stays(before, from, old.from()) && stays(before, to, old.to())) {
                untied.add(before.tie(old));
            }
        }
        wanted.values().forEach(left -> left.forEach(t -> tied.add(after.tie(t))));
    }

    private static boolean take(List<TieRow> same, TieRow old) {
        for (Iterator<TieRow> i = same.iterator(); i.hasNext(); ) {
            if (i.next().properties().equals(old.properties())) {
                i.remove();
                return true;
            }
        }
        return false;
    }

    private static boolean stays(GraphRows before, int becomes, int i) {
        return becomes >= 0 || before.nodes().get(i).isOutside();
    }

    /** {@return how many nodes and relationships are touched} */
    int size() {
        return gone.size() + changed.size() + made.size() + untied.size() + tied.size();
    }
}
