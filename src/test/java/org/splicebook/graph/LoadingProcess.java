package org.splicebook.graph;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import org.splicebook.record.House;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Derivation;

/** Stores revision after revision until it is killed, and says each one as soon as the store has acknowledged it. */
final class LoadingProcess {
    private static final int HOUSES = 5;

    private LoadingProcess() {}

    public static void main(String[] arguments) {
        endWithTheParent();
        try (Neo4jHouseStore store =
                Stores.embedded(Path.of(arguments[0]), TestHouses.TEXT, Clock.systemUTC(), Derivation::derive)) {
            for (int i = 0; ; i++) {
                String id = "house-" + i % HOUSES;
                long newest = store.revisions(id).size();
                House house = TestHouses.workshop(id, "Written " + i);
                Revision r = store.put(house, newest, "loader", "round " + i).get();
                System.out.println(r.house() + " " + r.number() + " " + r.digest());
            }
        }
    }

    /** The parent holds the other end of standard input: when that closes, nobody is left to kill this process. */
    static void endWithTheParent() {
        Thread watch = new Thread(() -> {
            try {
                while (System.in.read() >= 0) {
                    // Nothing is said to it.
                }
            } catch (IOException e) {
                // As good as closed.
            }
            Runtime.getRuntime().halt(1);
        });
        watch.setDaemon(true);
        watch.start();
    }
}
