package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.rules.mutation.FaultyHouses;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Derivation;

/** What is done to the graph of one revision makes it the graph of the next, for random moves on random houses. */
class GraphChangeTest {
    private static final Projection PROJECTION = new Projection(Derivation::derive);

    @Test
    void differenceMakesOneGraphIntoTheOther() {
        movesOn(8, 4);
    }

    @Test
    @Tag("full")
    void differenceMakesOneGraphIntoTheOtherManyTimes() {
        movesOn(Integer.getInteger("splicebook.houses", 60), 6);
    }

    @Test
    void smallChangeIsSmall() {
        House first = TestHouses.workshop("alder", "Alder");
        House second = TestHouses.of(TestHouses.TEXT.write(first).replace("label: Bench", "label: Vice"));
        GraphChange change = GraphChange.between(rows(first, 1), rows(second, 2));
        assertThat(change.gone()).isEmpty();
        assertThat(change.made()).isEmpty();
        assertThat(change.changed()).extracting(NodeRow::label).contains("House", "Breaker");
        assertThat(change.size()).isLessThan(6);
    }

    private static void movesOn(int houses, int moves) {
        for (int seed = 1; seed <= houses; seed++) {
            House house = seed % 2 == 0 ? FaultyHouses.of(seed).house() : RandomHouses.house(seed, Shape.SMALL);
            GraphRows before = rows(house, 1);
            RandomMoves random = new RandomMoves(seed);
            for (int n = 2; n <= moves; n++) {
                Optional<RandomMoves.Made> made = random.next(house);
                if (made.isEmpty()) {
                    break;
                }
                house = made.get().house();
                GraphRows after = rows(house, n);
                assertThat(changed(before, GraphChange.between(before, after)))
                        .as("seed %d, move %d: %s", seed, n, made.get().move())
                        .isEqualTo(after.lines());
                before = after;
            }
        }
    }

    /** {@return the lines of a graph after a change, made as a database makes it: by the names of nodes} */
    private static List<String> changed(GraphRows before, GraphChange change) {
        Map<String, NodeRow> nodes = new LinkedHashMap<>();
        before.nodes().forEach(n -> nodes.put(n.said(), n));
        List<GraphChange.Tie> ties = new ArrayList<>();
        before.ties().forEach(t -> ties.add(before.tie(t)));
        for (GraphChange.Tie gone : change.untied()) {
            boolean isFound = ties.removeIf(new java.util.function.Predicate<>() {
                private boolean isDone;

                @Override
                public boolean test(GraphChange.Tie t) {
                    boolean isIt = !isDone
                            && t.type().equals(gone.type())
                            && t.from().said().equals(gone.from().said())
                            && t.to().said().equals(gone.to().said())
                            && t.properties().equals(gone.properties());
                    isDone |= isIt;
                    return isIt;
                }
            });
            assertThat(isFound).as("%s", gone).isTrue();
        }
        TreeSet<String> gone = new TreeSet<>();
        change.gone().forEach(n -> gone.add(n.said()));
        ties.removeIf(t -> gone.contains(t.from().said()) || gone.contains(t.to().said()));
        nodes.keySet().removeAll(gone);
        change.changed().forEach(n -> assertThat(nodes.replace(n.said(), n)).isNotNull());
        change.made().forEach(n -> assertThat(nodes.put(n.said(), n)).isNull());
        ties.addAll(change.tied());
        List<NodeRow> list = List.copyOf(nodes.values());
        Map<String, Integer> at = new LinkedHashMap<>();
        list.forEach(n -> at.put(n.said(), at.size()));
        return new GraphRows(
                        list,
                        ties.stream()
                                .map(t -> new GraphRows.TieRow(
                                        at.get(t.from().said()), t.type(), at.get(t.to().said()), t.properties()))
                                .toList())
                .lines();
    }

    private static GraphRows rows(House house, long number) {
        return PROJECTION.of(
                PROJECTION.derive(house),
                new Revision(house.id(), house.said(), number, Instant.EPOCH, "", "", false, ""));
    }
}
