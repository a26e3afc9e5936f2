package org.splicebook.graph;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.record.Draft;
import org.splicebook.record.Move;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Derivation;

/** Keeps drafts, asks them and enters them step by step until it is killed, and says each step as soon as the store has acknowledged it. */
final class DraftingProcess {
    static final String HOUSE = "alder";

    private DraftingProcess() {}

    public static void main(String[] arguments) {
        ChildProcess.endWithTheParent();
        try (Neo4jHouseStore store =
                Stores.embedded(Path.of(arguments[0]), TestHouses.TEXT, Clock.systemUTC(), Derivation::derive)) {
            if (store.findHouse(HOUSE).isEmpty()) {
                store.put(TestHouses.workshop(HOUSE, "Alder"), 0, "loader", "").get();
            }
            DraftDesk desk = new DraftDesk(store);
            for (int i = store.drafts(HOUSE).size(); ; i++) {
                // Whatever was left half-way before, these can be done.
                List<Move> moves = List.of(
                        new Move.Cap("bench", "K1.red"), new Move.Shift("bench", "K1.red", "bench-1.bottom.hot"));
                KeptDraft kept = desk.save(new Draft("d-" + i, HOUSE, null, null, moves), 0, "loader");
                store.askDraft("load-points", desk.drafted(kept), Map.of()).get();
                for (int done = 1; done <= moves.size(); done++) {
                    KeptDraft now = desk.find(HOUSE, kept.name());
                    Revision r = desk.enter(now, now.version(), 1, true, "loader", "2026-05-17");
                    System.out.println(kept.name() + " " + done + " " + r.number());
                }
            }
        }
    }
}
