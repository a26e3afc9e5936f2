package org.splicebook.graph;

import java.net.URI;
import java.time.Clock;
import java.util.Optional;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** The program once more, beside another on the same database: edits the same house, one edit for each line that it is told. */
final class RivalProcess {
    static final String HOUSE = "alder";

    private RivalProcess() {}

    public static void main(String[] arguments) throws Exception {
        try (HouseStore store = open(URI.create(arguments[0]), arguments[1])) {
            System.out.println("ready");
            for (int order = System.in.read(); order >= 0; order = System.in.read()) {
                if (order == '\n') {
                    System.out.println(edit(store).map(r -> "" + r.number()).orElse("stale"));
                }
            }
        }
    }

    static HouseStore open(URI uri, String password) {
        return new AnsweringStore(
                Stores.server(uri, "neo4j", password, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive),
                Derivation::derive);
    }

    /** Adds one to the number in the house's name; {@return the revision, or nothing where somebody else was quicker} */
    static Optional<Revision> edit(HouseStore store) {
        StoredHouse before = store.findHouse(HOUSE).orElseThrow();
        return write(store, before);
    }

    static Optional<Revision> write(HouseStore store, StoredHouse before) {
        int next = Integer.parseInt(before.house().said()) + 1;
        House house = TestHouses.workshop(HOUSE, String.valueOf(next));
        Result<Revision> written = store.put(house, before.revision().number(), "rival", "");
        if (!written.isOk() && written.problems().get(0).kind() != ProblemKind.STALE) {
            throw new IllegalStateException(written.problems().toString());
        }
        return written.isOk() ? Optional.of(written.get()) : Optional.empty();
    }
}
