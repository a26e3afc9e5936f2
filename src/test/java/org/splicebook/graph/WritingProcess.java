package org.splicebook.graph;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.wiring.Derivation;

/**
 * Writes into several stores at once, each on a thread of its own, until it is killed, and says each write as soon as its store has
 * acknowledged it. Arguments: a seed, and the folders.
 */
final class WritingProcess {
    private WritingProcess() {}

    public static void main(String[] arguments) {
        ChildProcess.endWithTheParent();
        Random seeds = new Random(Long.parseLong(arguments[0]));
        List<Thread> writers = new ArrayList<>();
        for (int i = 1; i < arguments.length; i++) {
            int number = i - 1;
            Neo4jHouseStore store =
                    Stores.embedded(Path.of(arguments[i]), TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
            MixedWrites writes = new MixedWrites(store, new Random(seeds.nextLong()));
            writers.add(new Thread(() -> {
                while (true) {
                    System.out.println(number + " " + said(store, writes));
                }
            }));
        }
        writers.forEach(Thread::start);
    }

    /** {@return what was acknowledged, or after an exclamation mark what was refused and how the store says that it is} */
    private static String said(HouseStore store, MixedWrites writes) {
        try {
            return writes.one();
        } catch (ProblemException e) {
            Problem p = e.problems().get(0);
            Health health = store.health();
            return "! " + p.kind() + " " + p.said() + " up: " + health.up() + " " + health.wrong();
        } catch (RuntimeException e) {
            return "! fault " + e;
        }
    }
}
