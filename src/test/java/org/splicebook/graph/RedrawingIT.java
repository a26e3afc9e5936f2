package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.rules.mutation.FaultyHouses;
import org.splicebook.store.Progress;

/**
 * What is left in the database when only differences were written is what the whole projection gives. More houses:
 * {@code -Dsplicebook.houses=500}.
 */
@ExtendWith(HouseStoreContract.Context.class)
class RedrawingIT {
    private OneDatabase database;

    @BeforeEach
    void empty(ExtensionContext context) {
        database = OneDatabase.embedded(context);
        database.empty();
    }

    @Test
    void differencesOfRandomMovesAddUpToTheWhole() {
        moves(TestHouses.workshop("alder", "Alder"), 1, 12);
    }

    @Test
    @Tag("full")
    void differencesOfManyRandomMovesAddUpToTheWhole() {
        for (int seed = 1; seed <= Integer.getInteger("splicebook.houses", 4); seed++) {
            House drawn = seed % 2 == 0 ? FaultyHouses.of(seed).house() : RandomHouses.house(seed, Shape.SMALL);
            moves(TestHouses.of(TestHouses.TEXT.write(drawn.withId("alder"))), seed, 6);
        }
    }

    private void moves(House first, int seed, int moves) {
        House house = first;
        database.empty();
        database.store().put(house, 0, "Rowan", "").get();
        RandomMoves random = new RandomMoves(seed);
        for (int n = 1; n <= moves; n++) {
            Optional<RandomMoves.Made> made = random.next(house);
            if (made.isEmpty()) {
                break;
            }
            house = TestHouses.of(TestHouses.TEXT.write(made.get().house()));
            if (n % 3 == 0) {
                // As after a start: nothing of the revision before is remembered.
                database.store().forget();
            }
            database.store().put(house, n, "Rowan", "").get();
            assertThat(database.store().verify(false, Progress.NONE).differences())
                    .as("seed %d, move %d: %s", seed, n, made.get().move())
                    .isEmpty();
        }
    }

    @Test
    void aGraphThatIsNotWhatItWasThoughtToBeIsComparedWhole() {
        House first = TestHouses.workshop("alder", "Alder");
        House second = TestHouses.of(TestHouses.TEXT.write(first).replace("Bench", "Bench and vice"));
        database.store().put(first, 0, "Rowan", "").get();
        run("MATCH (n:Breaker {key: 'alder/main.1'}) DETACH DELETE n");
        run("MATCH (:LoadPoint {house: 'alder'})-[f:FED_BY]->() DELETE f");
        database.store().put(second, 1, "Rowan", "").get();
        assertThat(database.store().verify(false, Progress.NONE).differences()).isEmpty();

        run("MATCH (n:House {key: 'alder'}) SET n.revision = 1");
        run("MATCH (:LoadPoint {house: 'alder'})-[f:FED_BY]->() DELETE f");
        database.store().put(first, 2, "Rowan", "").get();
        assertThat(database.store().verify(false, Progress.NONE).differences()).isEmpty();
    }

    private void run(String cypher) {
        database.tool().executableQuery(cypher).execute();
    }
}
