package org.splicebook.graph;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * A house's part of the graph as plain rows, free of any database.
 *
 * @param nodes each node, unique by label and key
 * @param ties each relationship, its ends as indices of {@code nodes}
 */
record GraphRows(List<NodeRow> nodes, List<TieRow> ties) {
    GraphRows {
        nodes = List.copyOf(nodes);
        ties = List.copyOf(ties);
    }

    /**
     * One node.
     *
     * @param label its own label
     * @param others further labels
     * @param properties texts, whole numbers as Long, fractions as Double, truth values, lists of texts, dates
     */
    record NodeRow(String label, List<String> others, Map<String, Object> properties) {
        String said() {
            return label + " " + properties.get("key");
        }

        /** {@return what makes it the same node in two graphs: its labels and its key} */
        String identity() {
            return others.size() < 2
                    ? said() + " " + others
                    : said() + " " + others.stream().sorted().toList();
        }

        /** {@return whether the two have one identity, labels in the same order; where not, they may still have} */
        boolean isNamedAs(NodeRow other) {
            return label.equals(other.label)
                    && others.equals(other.others)
                    && Objects.equals(properties.get("key"), other.properties.get("key"));
        }

        /** {@return whether it stands for the end, outside the house, of a relationship that should not be} */
        boolean isOutside() {
            return label.equals(GraphWriter.OUTSIDE);
        }
    }

    /** One relationship. */
    record TieRow(int from, String type, int to, Map<String, Object> properties) {}

    /** {@return a relationship of these rows with its nodes} */
    GraphChange.Tie tie(TieRow t) {
        return new GraphChange.Tie(nodes.get(t.from()), t.type(), nodes.get(t.to()), t.properties());
    }

    /** {@return every row as one line of text, sorted: equal graphs have equal lines} */
    List<String> lines() {
        List<String> lines = new ArrayList<>(nodes.size() + ties.size());
        for (NodeRow n : nodes) {
            List<String> labels = new ArrayList<>(n.others());
            labels.add(n.label());
            labels.sort(Comparator.naturalOrder());
            lines.add(n.said() + " as " + labels + " with " + new TreeMap<>(n.properties()));
        }
        for (TieRow t : ties) {
            lines.add(nodes.get(t.from()).said() + " " + t.type() + " "
                    + nodes.get(t.to()).said() + " with " + new TreeMap<>(t.properties()));
        }
        lines.sort(Comparator.naturalOrder());
        return lines;
    }
}
