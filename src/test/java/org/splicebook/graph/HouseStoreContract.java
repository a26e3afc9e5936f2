package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.property.Properties;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Property;
import org.splicebook.record.Sighting;
import org.splicebook.store.DraftState;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Progress;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.store.VerifyReport;

/** What every store of houses does, whatever it is opened on. */
@ExtendWith(HouseStoreContract.Context.class)
abstract class HouseStoreContract {
    private OneDatabase database;
    private HouseStore store;

    /** {@return the database of this run} */
    abstract OneDatabase database(ExtensionContext context);

    /** {@return the store that is tested, over that database} */
    HouseStore store(OneDatabase of) {
        return of.store();
    }

    @BeforeEach
    void emptyStore(ExtensionContext context) {
        database = database(context);
        database.empty();
        store = store(database);
    }

    @Test
    void whatIsKeptBesideHousesIsAddedToAndTakenAway() {
        Papers papers = store.papers();
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "first").get();
        Paper one = papers.append(Papers.VISIT, "alder", "visit-1", "first", 0, "Rowan")
                .get();
        Paper two = papers.append(Papers.VISIT, "alder", "visit-1", "second", 1, "Hazel")
                .get();
        assertThat(two.lines()).hasSize(2).startsWith(one.lines().get(0));
        assertThat(papers.find(Papers.VISIT, "alder", "visit-1")).contains(two);
        assertThat(papers.append(Papers.VISIT, "alder", "visit-1", "late", 1, "Rowan")
                        .problems()
                        .get(0)
                        .kind())
                .isEqualTo(ProblemKind.STALE);
        assertThat(papers.list(Papers.VISIT, "alder")).containsExactly(two);
        assertThat(papers.list(Papers.VISIT, "ald")).isEmpty();
        Paper person = new Paper(
                Papers.RESIDENT,
                "alder",
                "one",
                List.of(new Paper.Line(Instant.parse("2026-05-01T10:00:00Z"), "Rowan", "{}")));
        assertThat(papers.isMarked(Papers.RESIDENT, "alder")).isFalse();
        papers.keep(person, true);
        assertThat(papers.find(Papers.RESIDENT, "alder", "one")).contains(person);
        assertThat(papers.isMarked(Papers.RESIDENT, "alder")).isTrue();
        papers.keep(person, false);
        assertThat(papers.isMarked(Papers.RESIDENT, "alder")).isFalse();
        papers.keep(person, true);
        assertThat(papers.erase(Papers.RESIDENT, "alder", "one")).isTrue();
        assertThat(papers.erase(Papers.RESIDENT, "alder", "one")).isFalse();
        assertThat(papers.isMarked(Papers.RESIDENT, "alder")).isFalse();
        assertThat(papers.list(Papers.RESIDENT, "alder")).isEmpty();
        VerifyReport report = store.verify(false, Progress.NONE);
        assertThat(report.differences()).isEmpty();
    }

    @Test
    void ofManyWhoAddToOnePaperAtOnceEachLineCountsOnce() throws Exception {
        ExecutorService pool = Executors.newFixedThreadPool(4);
        try {
            List<Future<Boolean>> tries = IntStream.range(0, 8)
                    .mapToObj(i -> pool.submit(() -> store.papers()
                            .append(Papers.VISIT, "a", "v", "line " + i, 0, "r")
                            .isOk()))
                    .toList();
            int done = 0;
            for (Future<Boolean> t : tries) {
                done += t.get() ? 1 : 0;
            }
            assertThat(done).isEqualTo(1);
            assertThat(store.papers().find(Papers.VISIT, "a", "v").orElseThrow().lines())
                    .hasSize(1);
        } finally {
            pool.shutdownNow();
        }
    }

    @Test
    void whatWasPutIsFoundAsItWas() {
        House house = TestHouses.workshop("alder", "Alder");
        Revision revision = store.put(house, 0, "Rowan", "first walk").get();

        assertThat(revision.number()).isEqualTo(1);
        assertThat(revision.digest()).isEqualTo(Packed.digest(TestHouses.TEXT.write(house)));
        assertThat(store.findHouse("alder")).contains(new StoredHouse(house, revision));
        assertThat(store.listHouses()).containsExactly(revision);
        assertThat(store.findHouse("birch")).isEmpty();
        assertThat(store.findRevision("alder", 2)).isEmpty();
        assertThat(store.revisions("birch")).isEmpty();
    }

    @Test
    void aPropertyIsFoundAsItWasAndAStaleWriteIsRefused() {
        Property one = PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                .get()
                .property();
        Property two = PropertyFiles.parse(
                        "row", Properties.text("alder-row.yaml").replace("complete: [links]\n", ""))
                .get()
                .property();
        Revision first = store.properties().put(one, 0, "Rowan", "first").get();
        assertThat(store.properties().find("alder-row")).contains(new StoredProperty(one, first));
        assertThat(store.properties().put(two, 0, "Rowan", "again").problems())
                .allMatch(p -> p.kind() == ProblemKind.STALE);
        Revision second = store.properties().put(two, 1, "Rowan", "again").get();
        assertThat(second.number()).isEqualTo(2);
        assertThat(store.properties().find("alder-row")).contains(new StoredProperty(two, second));
        assertThat(store.properties().findRevision("alder-row", 1)).contains(new StoredProperty(one, first));
        assertThat(store.properties().revisions("alder-row")).containsExactly(first, second);
        assertThat(store.properties().list()).containsExactly(second);
        assertThat(store.properties().find("birch")).isEmpty();
        assertThat(database.tool()
                        .executableQuery(
                                "MATCH (:Property {key: 'alder-row'})<-[:OF]-(n) RETURN labels(n)[0] AS l, count(*) AS n")
                        .execute()
                        .records())
                .extracting(r -> r.get("l").asString() + " " + r.get("n").asLong())
                .containsExactlyInAnyOrder("Building 1", "Unit 3", "FeedLink 3", "Meter 3");
    }

    @Test
    void aHouseIsRestoredWithItsWholePastAndOnlyWhereItNeverWas() {
        House first = TestHouses.workshop("alder", "Before");
        House second = TestHouses.workshop("alder", "After");
        Instant long_ago = Instant.parse("2019-05-01T10:00:00Z");
        Revision one = new Revision("alder", "Before", 1, long_ago, "Rowan", "walk", false, "");
        Revision two = new Revision("alder", "After", 4, long_ago.plusSeconds(60), "Wren", "repair", false, "");
        Past past = new Past(List.of(new Past.Step(one, first), new Past.Step(two, second)), List.of());

        Revision made = store.restore(past).get();
        assertThat(made).isEqualTo(two.withDigest(Packed.digest(TestHouses.TEXT.write(second))));
        assertThat(store.findHouse("alder")).contains(new StoredHouse(second, made));
        assertThat(store.findRevision("alder", 1).orElseThrow().house()).isEqualTo(first);
        assertThat(store.findAsOf("alder", long_ago.plusSeconds(30))
                        .orElseThrow()
                        .house())
                .isEqualTo(first);
        assertThat(store.revisions("alder")).extracting(Revision::who).containsExactly("Rowan", "Wren");
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
        assertThat(store.restore(past).problems()).allMatch(p -> p.kind() == ProblemKind.CONFLICT);
        assertThat(store.put(first, 4, "Rowan", "on").get().number()).isEqualTo(5);
    }

    @Test
    void everyWriteMakesTheNextRevisionAndTheOldOnesStay() {
        House first = TestHouses.workshop("alder", "Alder");
        House second = TestHouses.workshop("alder", "Alder after the repair");
        Revision one = store.put(first, 0, "Rowan", "first walk").get();
        Revision two = store.put(second, 1, "Rowan", "repair").get();

        assertThat(two.number()).isEqualTo(2);
        assertThat(two.stored()).isAfterOrEqualTo(one.stored());
        assertThat(store.findHouse("alder")).contains(new StoredHouse(second, two));
        assertThat(store.findRevision("alder", 1)).contains(new StoredHouse(first, one));
        assertThat(store.revisions("alder")).containsExactly(one, two);
        assertThat(store.listHouses()).containsExactly(two);
    }

    @Test
    void aDamagedGraphOfAPropertyIsToldAndRebuilt() {
        Property property = PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                .get()
                .property();
        store.properties().put(property, 0, "Rowan", "first").get();
        store.properties().put(property, 1, "Rowan", "second").get();
        assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
        Map<String, String> damages = Map.of(
                "MATCH (n:Unit {name: '14b'}) DETACH DELETE n", "lacks Unit",
                "MATCH (n:FeedLink {name: 'link-1'}) SET n.to = '14b'", "lacks FeedLink",
                "MATCH (:Unit {name: '14b'})-[t:IN]->(:Building) DELETE t", "lacks Unit",
                "MATCH (n:Meter {counts: '14b'})-[t:OF]->() DELETE t", "lacks Meter",
                "CREATE (:Unit {key: 'alder-row/14z', property: 'alder-row', name: '14z', house: 'h'})",
                        "should not, Unit",
                "MATCH (p:Property) SET p.linksComplete = NOT p.linksComplete", "lacks Property",
                "MATCH (p:Property) DETACH DELETE p", "should not, Building",
                "CREATE (:Unit {key: 'birch/1', property: 'birch', name: '1', house: 'h'})", "should not, Unit");
        damages.forEach((damage, said) -> {
            run(damage);
            VerifyReport found = store.verify(false, Progress.NONE);
            assertThat(found.differences()).as(damage).isNotEmpty().anyMatch(d -> d.contains(said));
            assertThat(found.differences()).as(damage).allMatch(d -> d.startsWith("property "));
            VerifyReport rebuilt = store.verify(true, Progress.NONE);
            assertThat(rebuilt.differences()).as(damage).isEmpty();
            assertThat(rebuilt.rebuilt()).as(damage).hasSize(1).allMatch(r -> r.startsWith("property "));
            assertThat(store.verify(true, Progress.NONE).rebuilt()).as(damage).isEmpty();
            assertThat(store.properties()
                            .find("alder-row")
                            .orElseThrow()
                            .revision()
                            .number())
                    .isEqualTo(2);
            assertThat(store.properties().revisions("alder-row")).hasSize(2);
        });
        run("MATCH (r:PropertyRevision {number: 1}) SET r.digest = 'x'");
        assertThat(store.verify(true, Progress.NONE).differences())
                .containsExactly("property alder-row: the record of revision 1 is not what was stored.");
    }

    /** A reader comes between: what is written is seen, and the index does not find it yet. */
    @Test
    void whileARevisionIsBeingStoredTheOneBeforeIsTheNewest() {
        House house = TestHouses.workshop("alder", "Alder");
        Property property = PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                .get()
                .property();
        Revision first = store.put(house, 0, "Rowan", "").get();
        Revision ofProperty = store.properties().put(property, 0, "Rowan", "").get();
        run("MATCH (n:Ledger|Property) SET n.newest = n.newest + 1");
        assertThat(store.findHouse("alder")).contains(new StoredHouse(house, first));
        assertThat(store.listHouses()).containsExactly(first);
        assertThat(store.properties().find("alder-row")).contains(new StoredProperty(property, ofProperty));
        assertThat(store.properties().list()).containsExactly(ofProperty);
    }

    @Test
    void aHouseIsFoundAsItStoodAtAMoment() {
        Revision one = store.put(TestHouses.workshop("alder", "Before"), 0, "Rowan", "")
                .get();
        Instant between = pause();
        Revision two =
                store.put(TestHouses.workshop("alder", "After"), 1, "Rowan", "").get();
        Instant later = pause();
        store.delete("alder", 2, "Rowan", "sold").get();

        assertThat(store.findAsOf("alder", one.stored().minusSeconds(1))).isEmpty();
        assertThat(store.findAsOf("alder", one.stored()).map(StoredHouse::revision))
                .contains(one);
        assertThat(store.findAsOf("alder", between).map(StoredHouse::revision)).contains(one);
        assertThat(store.findAsOf("alder", later).map(StoredHouse::revision)).contains(two);
        assertThat(store.findAsOf("alder", Instant.now().plusSeconds(60))).isEmpty();
    }

    @Test
    void aWriteMadeFromAnOldRevisionIsRefusedAndChangesNothing() {
        House house = TestHouses.workshop("alder", "Alder");
        store.put(house, 0, "Rowan", "").get();
        store.put(house, 1, "Rowan", "").get();

        for (long expected : new long[] {0, 1, 3}) {
            Result<Revision> refused = store.put(TestHouses.workshop("alder", "Other"), expected, "Hazel", "");
            assertThat(refused.isOk()).isFalse();
            assertThat(refused.problems().get(0).kind()).isEqualTo(ProblemKind.STALE);
            assertThat(refused.problems().get(0).message()).contains("newest revision is 2");
        }
        assertThat(store.delete("alder", 1, "Hazel", "").problems().get(0).kind())
                .isEqualTo(ProblemKind.STALE);
        assertThat(store.put(TestHouses.workshop("birch", "Birch"), 4, "Hazel", "")
                        .problems()
                        .get(0)
                        .kind())
                .isEqualTo(ProblemKind.STALE);
        assertThat(store.revisions("alder")).hasSize(2);
        assertThat(store.revisions("birch")).isEmpty();
        assertThat(store.findHouse("alder").orElseThrow().house()).isEqualTo(house);
    }

    @Test
    void ofManyWhoWriteAtOnceOneWinsAndTheOthersAreTold() throws InterruptedException, ExecutionException {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        List<Result<Revision>> results =
                atOnce(4, i -> store.put(TestHouses.workshop("alder", "Alder by " + i), 1, "writer " + i, ""));
        List<Result<Revision>> fresh =
                atOnce(3, i -> store.put(TestHouses.workshop("birch", "Birch by " + i), 0, "writer " + i, ""));

        for (List<Result<Revision>> race : List.of(results, fresh)) {
            assertThat(race.stream().filter(Result::isOk)).hasSize(1);
            assertThat(race.stream()
                            .filter(r -> !r.isOk())
                            .map(r -> r.problems().get(0).kind()))
                    .containsOnly(ProblemKind.STALE);
        }
        assertThat(store.revisions("alder")).hasSize(2);
        assertThat(store.revisions("birch")).hasSize(1);
        assertThat(store.verify(false, Progress.NONE).differences()).isEmpty();
    }

    @Test
    void aDeletedHouseIsGoneAndItsRevisionsStay() {
        House house = TestHouses.workshop("alder", "Alder");
        store.put(house, 0, "Rowan", "").get();
        Revision gone = store.delete("alder", 1, "Rowan", "sold").get();

        assertThat(gone.deleted()).isTrue();
        assertThat(gone.number()).isEqualTo(2);
        assertThat(store.findHouse("alder")).isEmpty();
        assertThat(store.listHouses()).isEmpty();
        assertThat(count("MATCH (n:Part) RETURN count(n) AS n")).isZero();
        assertThat(store.revisions("alder")).hasSize(2).last().isEqualTo(gone);
        assertThat(store.delete("alder", 2, "Rowan", "").problems().get(0).kind())
                .isEqualTo(ProblemKind.NOT_FOUND);
        assertThat(store.delete("birch", 0, "Rowan", "").problems().get(0).kind())
                .isEqualTo(ProblemKind.NOT_FOUND);
        assertThat(store.revisions("birch")).isEmpty();

        StoredHouse old = store.findRevision("alder", 1).orElseThrow();
        assertThat(store.put(old.house(), 2, "Rowan", "back again").get().number())
                .isEqualTo(3);
        assertThat(store.findHouse("alder").orElseThrow().house()).isEqualTo(house);
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
    }

    @Test
    void sightingsAreAddedOnceAndNeverChanged() {
        String lit =
                "{id: s1, date: 2026-03-14, with-off: [main.6], at: bath-gf, before: lit, read: not lit, after: lit}";
        String volts =
                "{id: s2, date: 2026-03-10, volts: 238.0, between: [bench-1.top.hot, bench-1.bottom.hot], instrument: meter}";
        String pressed = "{id: s3, date: 2026-03-12, pressed: bath-gf, went-out: [bath-gf], stayed: [bench-1.top]}";
        String other = "{id: s3, date: 2026-03-12, pressed: bath-gf, went-out: [bath-gf], stayed: [bench-1.bottom]}";
        Sighting s1 = sighting(lit);
        Sighting s2 = sighting(volts);
        Sighting s3 = sighting(pressed);
        store.put(TestHouses.workshop("alder", "Alder", lit), 0, "Rowan", "").get();

        assertThat(store.appendSightings("alder", List.of(s2, s3)).get()).isEqualTo(2);
        assertThat(store.appendSightings("alder", List.of(s3, s1, s2)).get()).isZero();
        assertThat(store.sightings("alder")).containsExactly(s2, s3, s1);

        Result<Integer> clash =
                store.appendSightings("alder", List.of(sighting(volts.replace("s2", "s4")), sighting(other)));
        assertThat(clash.problems().get(0).kind()).isEqualTo(ProblemKind.CONFLICT);
        assertThat(store.sightings("alder")).containsExactly(s2, s3, s1);
        assertThat(store.revisions("alder")).hasSize(1);

        store.put(TestHouses.workshop("alder", "Alder"), 1, "Rowan", "").get();
        assertThat(store.sightings("alder")).containsExactly(s2, s3);
        assertThat(store.put(TestHouses.workshop("alder", "Alder", other), 2, "Rowan", "")
                        .problems()
                        .get(0)
                        .kind())
                .isEqualTo(ProblemKind.CONFLICT);
        assertThat(store.appendSightings("birch", List.of(s1)).problems().get(0).kind())
                .isEqualTo(ProblemKind.NOT_FOUND);
    }

    @Test
    void theGraphFollowsTheNewestRevision() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        store.put(TestHouses.workshop("alder", "Alder again"), 1, "Rowan", "").get();

        assertThat(count("MATCH (h:House {key: 'alder', revision: 2, title: 'Alder again'}) RETURN count(h) AS n"))
                .isEqualTo(1);
        assertThat(count("MATCH (b:Breaker {key: 'alder/main.1'})-[:IF_LOST {mode: 'off-by-hand'}]->(:Loss)"
                        + "-[c:CHANGES {hot: 'lost'}]->(l:LoadPoint) RETURN count(l) AS n"))
                .isEqualTo(2);
        assertThat(count("MATCH (l:LoadPoint {key: 'alder/bath-gf'})-[f:FED_BY]->(:Pole {name: 'main.6'})"
                        + " WHERE size(f.hopNames) = size(f.hopKinds) AND f.basis = 'seen' RETURN count(f) AS n"))
                .isEqualTo(1);
    }

    @Test
    void verifyTellsWhatDiffersAndRebuildsIt() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        store.put(TestHouses.workshop("birch", "Birch"), 0, "Rowan", "").get();
        assertThat(store.verify(false, Progress.NONE)).isEqualTo(new VerifyReport(2, List.of(), List.of()));

        run("MATCH (b:Breaker {key: 'alder/main.6'}) SET b.amperes = 40.0");
        run("MATCH (:LoadPoint {key: 'birch/bath-gf'})-[f:FED_BY]->() DELETE f");
        run("MATCH (a:Box {key: 'birch/bench'}), (b:Box {key: 'alder/bench'}) CREATE (a)-[:NEXT]->(b)");
        run("CREATE (:House:Part {key: 'ghost', house: 'ghost', name: 'ghost'})");
        VerifyReport report = store.verify(false, Progress.NONE);
        assertThat(report.clean()).isFalse();
        assertThat(report.differences())
                .anySatisfy(d -> assertThat(d).startsWith("alder: ").contains("Breaker alder/main.6", "40.0"))
                .anySatisfy(d -> assertThat(d).startsWith("birch: the graph lacks LoadPoint birch/bath-gf FED_BY"))
                .anySatisfy(d -> assertThat(d).startsWith("birch: the graph has, and should not, Box birch/bench NEXT"))
                .anySatisfy(d -> assertThat(d).startsWith("ghost: the graph has, and should not, House ghost"));

        VerifyReport repaired = store.verify(true, Progress.NONE);
        assertThat(repaired.rebuilt()).containsExactly("alder", "birch", "ghost");
        assertThat(repaired.clean()).isTrue();
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
    }

    @Test
    void verifyTellsADamagedRecord() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        store.put(TestHouses.workshop("alder", "Alder again"), 1, "Rowan", "").get();
        run("MATCH (a:Revision {key: 'alder/1'}), (b:Revision {key: 'alder/2'}) SET a.record = b.record");

        assertThat(store.verify(true, Progress.NONE).differences())
                .containsExactly("alder: the record of revision 1 is not what was stored.");
    }

    @Test
    void manyHousesComeInAtOnceOrNotAtAll() {
        List<House> houses = IntStream.range(0, 12)
                .mapToObj(i -> TestHouses.workshop("unit-" + i, "Unit " + i))
                .toList();
        List<Revision> stored = store.putAll(houses, "Rowan", "portfolio").get();

        assertThat(stored).hasSize(12).allSatisfy(r -> assertThat(r.number()).isEqualTo(1));
        assertThat(store.findHouse("unit-7").map(StoredHouse::house)).contains(houses.get(7));
        assertThat(store.verify(false, Progress.NONE)).isEqualTo(new VerifyReport(12, List.of(), List.of()));

        Result<List<Revision>> refused = store.putAll(
                List.of(TestHouses.workshop("new", "New"), houses.get(3), TestHouses.workshop("new", "Twice")),
                "Rowan",
                "");
        assertThat(refused.problems().stream().map(p -> p.kind()))
                .containsExactlyInAnyOrder(ProblemKind.DUPLICATE, ProblemKind.CONFLICT);
        assertThat(store.findHouse("new")).isEmpty();
        assertThat(store.listHouses()).hasSize(12);
        assertThat(store.put(houses.get(3), 1, "Rowan", "").get().number()).isEqualTo(2);
    }

    @Test
    void aGraphWithAnotherStampIsRebuiltBeforeItIsAnsweredFrom() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        ofAnotherVersion();
        assertThat(store.ask("load-points", "alder", Map.of()).isOk()).isTrue();
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();

        ofAnotherVersion();
        assertThat(store.ask("worst-houses", "", Map.of()).isOk()).isTrue();
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
    }

    @Test
    void manyGraphsWithAnotherStampAreRebuiltBesideOtherWork() throws InterruptedException {
        List<House> houses = IntStream.range(0, 12)
                .mapToObj(i -> TestHouses.workshop("unit-" + i, "Unit " + i))
                .toList();
        store.putAll(houses, "Rowan", "").get();
        ofAnotherVersion();
        assertThatThrownBy(() -> store.ask("worst-houses", "", Map.of()))
                .isInstanceOfSatisfying(ProblemException.class, e -> {
                    assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
                    assertThat(e.problems().get(0).said())
                            .contains("12 of the houses")
                            .contains("Ask again in a while");
                });
        assertThat(store.ask("load-points", "unit-11", Map.of()).isOk()).isTrue();
        Optional<Result<Reply>> all = Optional.empty();
        for (int i = 0; i < 300 && all.isEmpty(); i++) {
            Thread.sleep(100);
            try {
                all = Optional.of(store.ask("worst-houses", "", Map.of()));
            } catch (ProblemException e) {
                assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
            }
        }
        assertThat(all).hasValueSatisfying(r -> assertThat(r.isOk()).isTrue());
        assertThat(store.verify(false, Progress.NONE)).isEqualTo(new VerifyReport(12, List.of(), List.of()));
    }

    private void ofAnotherVersion() {
        run("MATCH (h:House) SET h.derivation = 0");
        run("MATCH (:LoadPoint)-[f:FED_BY]->() DELETE f");
        database.store().forget();
    }

    private static Draft draft(String name, Move... moves) {
        return new Draft(name, "alder", 1L, "so that \"it\" holds: #1", List.of(moves));
    }

    private static final Move CAP = new Move.Cap("bench", "K1.red");
    private static final Move BACK = new Move.Shift("bench", "K1.red", "bench-1.bottom.hot");

    @Test
    void aDraftIsKeptAsItWasInVersionsAndCountsNowhere() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        long nodes = count("MATCH (n:Part) RETURN count(n) AS n");
        KeptDraft one =
                store.putDraft(DraftState.open(draft("red", CAP)), 0, "Hazel").get();
        KeptDraft empty =
                store.putDraft(DraftState.open(draft("none")), 0, "Hazel").get();

        assertThat(one.version()).isEqualTo(1);
        assertThat(store.findDraft("alder", "red")).contains(one);
        assertThat(store.drafts("alder")).containsExactly(empty, one);
        assertThat(one.draft()).isEqualTo(draft("red", CAP));
        assertThat(store.findDraft("alder", "blue")).isEmpty();
        assertThat(store.drafts("birch")).isEmpty();

        KeptDraft two = store.putDraft(DraftState.open(draft("red", CAP, BACK)), 1, "Hazel")
                .get();
        assertThat(two.version()).isEqualTo(2);
        for (long expected : new long[] {0, 1, 3}) {
            assertThat(store.putDraft(DraftState.open(draft("red")), expected, "Hazel")
                            .problems()
                            .get(0)
                            .kind())
                    .isEqualTo(ProblemKind.STALE);
        }
        KeptDraft gone =
                store.putDraft(new DraftState(two.draft(), 0, true), 2, "Hazel").get();
        assertThat(gone.state().status()).isEqualTo(DraftState.Status.WITHDRAWN);
        assertThat(store.findDraft("alder", "red")).contains(gone);

        assertThat(store.revisions("alder")).hasSize(1);
        assertThat(count("MATCH (n:Part) RETURN count(n) AS n")).isEqualTo(nodes);
        assertThat(store.health().houses()).isEqualTo(1);
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
        assertThat(store.putDraft(DraftState.open(new Draft("red", "birch", 1L, null, List.of())), 0, "Hazel")
                        .problems()
                        .get(0)
                        .kind())
                .isEqualTo(ProblemKind.NOT_FOUND);
    }

    @Test
    void whatWasDoneOfADraftIsStoredWithTheHouseOrNotAtAll() {
        House before = TestHouses.workshop("alder", "Alder");
        House after = TestHouses.workshop("alder", "Alder after the work");
        store.put(before, 0, "Rowan", "").get();
        KeptDraft kept = store.putDraft(DraftState.open(draft("red", CAP, BACK)), 0, "Hazel")
                .get();
        DraftState done = new DraftState(kept.draft().with(2, kept.draft().moves()), 1, false);

        assertThat(store.enterDraft(after, done, 7, "Hazel", "")
                        .problems()
                        .get(0)
                        .kind())
                .as("another version of the draft")
                .isEqualTo(ProblemKind.STALE);
        DraftState elsewhere = new DraftState(kept.draft().with(3, kept.draft().moves()), 1, false);
        assertThat(store.enterDraft(after, elsewhere, 1, "Hazel", "")
                        .problems()
                        .get(0)
                        .kind())
                .as("another revision of the house")
                .isEqualTo(ProblemKind.STALE);
        assertThat(store.findHouse("alder").orElseThrow().house()).isEqualTo(before);
        assertThat(store.findDraft("alder", "red")).contains(kept);

        Revision entered = store.enterDraft(after, done, 1, "Hazel", "step 1").get();
        assertThat(store.findHouse("alder")).contains(new StoredHouse(after, entered));
        KeptDraft now = store.findDraft("alder", "red").orElseThrow();
        assertThat(now.state()).isEqualTo(done);
        assertThat(now.version()).isEqualTo(2);
        assertThat(now.state().status()).isEqualTo(DraftState.Status.PARTLY_ENTERED);
        assertThat(now.state().left()).containsExactly(BACK);
        assertThat(store.verify(false, Progress.NONE).clean()).isTrue();
    }

    @Test
    void ofManyWhoChangeADraftAtOnceOneWins() throws InterruptedException, ExecutionException {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        List<Result<KeptDraft>> race =
                atOnce(4, i -> store.putDraft(DraftState.open(draft("red", CAP)), 0, "writer " + i));
        assertThat(race.stream().filter(Result::isOk)).hasSize(1);
        assertThat(store.drafts("alder")).hasSize(1);
    }

    @Test
    void draftsGoWithTheirHouseAndADamagedOneIsTold() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        KeptDraft kept =
                store.putDraft(DraftState.open(draft("red", CAP)), 0, "Hazel").get();
        store.delete("alder", 1, "Rowan", "sold").get();
        assertThat(store.drafts("alder")).isEmpty();
        assertThat(store.findDraft("alder", "red")).isEmpty();
        store.put(TestHouses.workshop("alder", "Alder"), 2, "Rowan", "").get();
        assertThat(store.findDraft("alder", "red")).contains(kept);

        run("MATCH (d:Draft {key: 'alder/red'}) SET d.text = replace(d.text, 'K1.red', 'K1.black')");
        assertThat(store.verify(true, Progress.NONE).differences())
                .containsExactly("alder: the draft red is not what was stored.");
        assertThatThrownBy(() -> store.findDraft("alder", "red"))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("not what was stored");
    }

    @Test
    void aDraftIsAskedAndNothingOfItStays() {
        House house = TestHouses.workshop("alder", "Alder");
        store.put(house, 0, "Rowan", "").get();
        DraftDesk desk = new DraftDesk(store);
        KeptDraft kept = desk.save(draft("red", CAP), 0, "Hazel");
        String nodes = "MATCH (n) RETURN count(n) AS n";
        long before = count(nodes);
        Map<String, String> off = Map.of("thing", "main.3");

        Answer now = (Answer) store.ask("what-goes-off", "alder", off).get();
        Answer then = (Answer)
                store.askDraft("what-goes-off", desk.drafted(kept), off).get();
        assertThat(now.rows(Row.Status.SHOWN)).extracting(Row::subject).contains("bench-1.bottom");
        assertThat(then.rows(Row.Status.SHOWN)).extracting(Row::subject).doesNotContain("bench-1.bottom");
        assertThat(then.heading().draft()).isTrue();
        assertThat(then.heading().house()).isEqualTo("alder");
        assertThat(then.heading().revision()).isEqualTo(1);
        assertThat(count(nodes)).isEqualTo(before);
        assertThat(store.ask("what-goes-off", "alder", off).get()).isEqualTo(now);

        Result<Reply> unknown = store.askDraft("what-goes-off", desk.drafted(kept), Map.of("thing", "main.99"));
        assertThat(unknown.problems().get(0).message())
                .contains("alder", "main.99")
                .doesNotContain("~");
        assertThat(store.askDraft("worst-houses", desk.drafted(kept), Map.of())
                        .problems()
                        .get(0)
                        .message())
                .contains("across houses");
        assertThat(store.askDraft("none", desk.drafted(kept), Map.of())
                        .problems()
                        .get(0)
                        .kind())
                .isEqualTo(ProblemKind.NOT_FOUND);
        assertThat(count(nodes)).isEqualTo(before);
    }

    @Test
    void itSaysHowItIs() {
        store.put(TestHouses.workshop("alder", "Alder"), 0, "Rowan", "").get();
        Health health = store.health();
        assertThat(health.up()).isTrue();
        assertThat(health.version()).contains("5.26");
        assertThat(health.houses()).isEqualTo(1);
    }

    private static Sighting sighting(String yaml) {
        return TestHouses.workshop("any", "Any", yaml).sightings().get(0);
    }

    private static Instant pause() {
        try {
            Thread.sleep(3);
            Instant now = Instant.now();
            Thread.sleep(3);
            return now;
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static <T> List<T> atOnce(int writers, java.util.function.IntFunction<T> work)
            throws InterruptedException, ExecutionException {
        ExecutorService pool = Executors.newFixedThreadPool(writers);
        try {
            List<Future<T>> futures = IntStream.range(0, writers)
                    .mapToObj(i -> pool.submit(() -> work.apply(i)))
                    .toList();
            List<T> results = new java.util.ArrayList<>();
            for (Future<T> f : futures) {
                results.add(f.get());
            }
            return results;
        } finally {
            pool.shutdownNow();
        }
    }

    private void run(String cypher) {
        database.tool().executableQuery(cypher).execute();
    }

    private long count(String cypher) {
        return database.tool()
                .executableQuery(cypher)
                .withParameters(Map.of())
                .execute()
                .records()
                .get(0)
                .get("n")
                .asLong();
    }

    /** Hands the test's context to methods that ask for it. */
    static final class Context implements ParameterResolver {
        @Override
        public boolean supportsParameter(ParameterContext parameter, ExtensionContext context) {
            return parameter.getParameter().getType() == ExtensionContext.class;
        }

        @Override
        public Object resolveParameter(ParameterContext parameter, ExtensionContext context) {
            return context;
        }
    }
}
