package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.rewire.Drafts;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** What a question says of a draft is what it would say of the house if the draft were done and stored, and nobody else sees any of it. */
class DraftsAreAskedLikeHousesIT {
    private static final Map<String, String> EXAMPLES = Map.of(
            "thing", "shop-gf",
            "point", "bath-1.top",
            "breaker", "main.9",
            "device", "shop-gf",
            "box", "stair-head",
            "wire", "C10g.white",
            "cable", "C18c",
            "place", "bath");
    private static final String MOVES = """
            draft: pair
            moves:
              - {panel: main, was: ["9", "11"], is: 9+11, as: {rating: 20 A}}
              - {retire-cable: C18c}
            """;

    @TempDir
    static Path folder;

    static Neo4jHouseStore store;
    static House house;

    @BeforeAll
    static void open() {
        house = HouseFiles.read(Path.of("sample-house")).get();
        store = Stores.embedded(folder, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive);
        store.put(house, 0, "Rowan", "the sample").get();
    }

    @AfterAll
    static void close() {
        store.close();
    }

    @Test
    void everyQuestionAboutAHouseSaysTheSameOfADraft() {
        StoredHouse base = store.findHouse(house.id()).orElseThrow();
        Draft draft = DraftFiles.parse("moves", MOVES, base.house()).get().draft();
        DraftedHouse drafted = DraftDesk.drafted(draft, base);
        String done = "as-if-done";
        store.put(Drafts.of(draft, base.house()).get().withId(done), 0, "Rowan", "")
                .get();
        List<String> differ = new ArrayList<>();
        boolean isPrinted = Boolean.getBoolean("splicebook.print");
        int asked = 0;
        long nanos = 0;
        for (int round = isPrinted ? 0 : 1; round < 2; round++) {
            for (Question q : store.questions()) {
                if (q.acrossHouses()) {
                    continue;
                }
                Map<String, String> parameters = parameters(q);
                long start = System.nanoTime();
                var of = store.askDraft(q.id(), drafted, parameters);
                nanos += round == 0 ? 0 : System.nanoTime() - start;
                asked += round;
                var is = store.ask(q.id(), done, parameters);
                assertThat(of.isOk()).as("%s: %s", q.id(), of.problems()).isEqualTo(is.isOk());
                if (of.isOk() && !body(of.get()).equals(body(is.get()))) {
                    List<String> extra = new ArrayList<>(body(of.get()));
                    extra.removeAll(body(is.get()));
                    differ.add(q.id() + ": " + extra);
                }
            }
        }
        if (isPrinted) {
            System.out.printf("%d questions of a draft, %.0f ms each%n", asked, nanos / 1e6 / asked);
        }
        assertThat(asked).isGreaterThan(20);
        assertThat(differ).isEmpty();
        store.delete(done, 1, "Rowan", "").get();
    }

    @Test
    void whileDraftsAreAskedNobodySeesThem() throws Exception {
        StoredHouse base = store.findHouse(house.id()).orElseThrow();
        Draft draft = DraftFiles.parse("moves", MOVES, base.house()).get().draft();
        DraftedHouse drafted = DraftDesk.drafted(draft, base);
        long parts = parts();
        List<String> worst = body(store.ask("worst-houses", "", Map.of()).get());
        ExecutorService pool = Executors.newFixedThreadPool(2);
        try {
            List<Future<?>> asking = new ArrayList<>();
            for (int i = 0; i < 2; i++) {
                asking.add(pool.submit(() -> {
                    for (int k = 0; k < 4; k++) {
                        store.askDraft("load-points", drafted, Map.of()).get();
                    }
                }));
            }
            while (asking.stream().anyMatch(f -> !f.isDone())) {
                assertThat(parts()).isEqualTo(parts);
                assertThat(body(store.ask("worst-houses", "", Map.of()).get())).isEqualTo(worst);
            }
            for (Future<?> f : asking) {
                f.get();
            }
        } finally {
            pool.shutdownNow();
        }
        assertThat(parts()).isEqualTo(parts);
    }

    private static long parts() {
        return store.driver()
                .executableQuery("MATCH (n) WHERE n:Part OR n:House RETURN count(n) AS n")
                .execute()
                .records()
                .get(0)
                .get("n")
                .asLong();
    }

    private static Map<String, String> parameters(Question q) {
        Map<String, String> all = new TreeMap<>();
        for (Question.Parameter p : q.parameters()) {
            if (p.otherwise().isEmpty()) {
                all.put(p.name(), EXAMPLES.getOrDefault(p.name(), "any"));
            }
        }
        return all;
    }

    /** What a reply says, whatever the house is called: lists have no order, and of many ways any may be told. */
    private static List<String> body(Reply reply) {
        List<String> lines = new ArrayList<>();
        if (reply instanceof Answer a) {
            a.rows()
                    .forEach(r -> lines.add(r.subject() + " " + r.status() + " " + r.basis() + " " + cells(r.columns())
                            + " " + r.ways().size()));
            lines.add(a.outcome());
            lines.addAll(a.assumed());
            lines.addAll(a.notProven());
            lines.addAll(a.wouldSettle());
        } else {
            ((Listing) reply).rows().forEach(r -> lines.add(cells(r)));
        }
        lines.sort(null);
        return lines;
    }

    private static String cells(Object value) {
        if (value instanceof Map<?, ?> m) {
            return m.values().stream()
                    .map(DraftsAreAskedLikeHousesIT::cells)
                    .toList()
                    .toString();
        }
        return value instanceof List<?> l
                ? l.stream()
                        .map(DraftsAreAskedLikeHousesIT::cells)
                        .sorted()
                        .toList()
                        .toString()
                : String.valueOf(value);
    }
}
