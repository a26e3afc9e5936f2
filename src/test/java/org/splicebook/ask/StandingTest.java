package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.Sighting.Reading;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.evidence.Expiry;

/** Which sightings still stand after the record of a house changed. */
class StandingTest {
    private static final String HOUSE = """
            splicebook: 1
            house: quay-cottage
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources:
              service: {system: split-phase 120/240, bond: main}
            panels:
              main:
                supply: service
                breakers:
                  1: {rating: 15 A}
                  3: {rating: 15 A}
                joints:
                  - [n, K1.white, K2.white]
                  - [1, K1.black]
                  - [3, K2.black]
            cables:
              K1: {kind: NM, wires: 14/2, ends: [main, hall]}
              K2: {kind: NM, wires: 14/2, ends: [main, stair]}
            boxes:
              hall:
                devices: {hall-1: {kind: luminaire}}
                joints:
                  - [K1.black, hall-1.hot]
                  - [K1.white, hall-1.neutral]
              stair:
                devices: {stair-1: {kind: luminaire}}
                joints:
                  - [K2.black, stair-1.hot]
                  - [K2.white, stair-1.neutral]
            """;

    private static House house(String... replaced) {
        String text = HOUSE;
        for (int i = 0; i < replaced.length; i += 2) {
            assertThat(text).contains(replaced[i]);
            text = text.replace(replaced[i], replaced[i + 1]);
        }
        return HouseFiles.parse("quay.yaml", text).get();
    }

    private static Sighting at(String point, String date) {
        return new Sighting(
                point + " " + date,
                date,
                List.of("main.1"),
                Map.of(),
                "meter",
                "a",
                null,
                new Sighting.Lit(point, Reading.LIT, Reading.NOT_LIT, Reading.LIT),
                null);
    }

    /** Revisions stored on the first days of January, February, and so on of 2026. */
    private static Standing standing(List<House> houses, Sighting... sightings) {
        List<StoredHouse> stored = new ArrayList<>();
        for (House h : houses) {
            int n = stored.size() + 1;
            Instant when = Instant.parse("2026-0" + n + "-01T12:00:00Z");
            stored.add(new StoredHouse(h, new Revision(h.id(), h.id(), n, when, "Rowan", "", false, "d" + n)));
        }
        return Standing.of(
                stored.get(stored.size() - 1),
                stored.stream().map(StoredHouse::revision).toList(),
                n -> Optional.of(stored.get((int) n - 1)),
                List.of(sightings));
    }

    private static final String[] REWIRED = {"[1, K1.black]", "[3, K1.black]"};

    @Test
    void aSightingStandsWhileNothingOnItsWayChanges() {
        House relabelled = house("1: {rating: 15 A}", "1: {rating: 15 A, label: Hall, note: read today}");
        assertThat(standing(List.of(house(), relabelled), at("K1.black@2", "2026-01-15"))
                        .standing())
                .hasSize(1);
    }

    @Test
    void aChangeOnItsWayEndsIt() {
        Standing s = standing(List.of(house(), house(REWIRED)), at("K1.black@2", "2026-01-15"));
        assertThat(s.standing()).isEmpty();
        assertThat(s.why("K1.black@2 2026-01-15")).contains("K1 was changed");
    }

    @Test
    void aChangeElsewhereDoesNot() {
        House other = house("[K2.white, stair-1.neutral]", "[K2.white]");
        Sighting s = at("K1.black@2", "2026-01-15");
        Sighting hallOnly = new Sighting(
                s.id(), s.date(), List.of("main.1"), s.levers(), s.instrument(), s.pass(), null, s.seen(), null);
        assertThat(standing(List.of(house(), other), hallOnly).standing()).hasSize(1);
    }

    @Test
    void whatWasSeenAfterTheChangeStands() {
        assertThat(standing(List.of(house(), house(REWIRED)), at("K1.black@2", "2026-02-15"))
                        .standing())
                .hasSize(1);
    }

    @Test
    void onTheDayOfTheChangeNobodyKnowsWhichCameFirst() {
        assertThat(standing(List.of(house(), house(REWIRED)), at("K1.black@2", "2026-02-01"))
                        .standing())
                .isEmpty();
    }

    @Test
    void aChangeThatWasUndoneEndsItAllTheSame() {
        assertThat(standing(List.of(house(), house(REWIRED), house()), at("K1.black@2", "2026-01-15"))
                        .standing())
                .isEmpty();
    }

    @Test
    void whatWasRecordedLaterWasMadeOnTheFirstRevision() {
        assertThat(standing(List.of(house(), house(REWIRED)), at("K1.black@2", "2025-06-01"))
                        .standing())
                .isEmpty();
    }

    @Test
    void whatWasAddedWhereItMayBeJoinedEndsItUnlessItIsSaidToBeOlder() {
        String[] open = {"  hall:\n", "  hall:\n    complete: [cables]\n"};
        String k2 = "ends: [main, stair]}\n";
        String k3 = k2 + "  K3: {kind: NM, wires: 14/2, ends: [hall, stair]%s}\n";
        House before = house(open);
        House added = house(open[0], open[1], k2, String.format(k3, ""));
        assertThat(standing(List.of(before, added), at("K1.black@2", "2026-01-15"))
                        .expired()
                        .values())
                .anySatisfy(c -> assertThat(c).contains(new Expiry.Change("K3", Expiry.How.ADDED)));
        House older = house(open[0], open[1], k2, String.format(k3, ", since: 1958"));
        assertThat(standing(List.of(before, older), at("K1.black@2", "2026-01-15"))
                        .expired()
                        .values())
                .allSatisfy(c -> assertThat(c).noneMatch(x -> x.what().equals("K3")));
    }

    @Test
    void aRevisionThatCannotBeReadEndsWhatWasMadeBeforeIt() {
        Revision one = new Revision("q", "q", 1, Instant.parse("2026-01-01T12:00:00Z"), "R", "", false, "d1");
        Revision two = new Revision("q", "q", 2, Instant.parse("2026-02-01T12:00:00Z"), "R", "", false, "d2");
        Standing s = Standing.of(
                new StoredHouse(house(), two),
                List.of(one, two),
                n -> Optional.empty(),
                List.of(at("K1.black@2", "2026-01-15"), at("K1.black@2", "2026-03-15")));
        assertThat(s.standing()).extracting(Sighting::date).containsExactly("2026-03-15");
        assertThat(s.why("K1.black@2 2026-01-15")).isEqualTo("in revision 2 something was changed");
    }

    @Test
    void whatIsSaidToBeNewerThanAReadingEndsIt() {
        for (String newer : List.of("2026-03", "2026", "2027", "2026-03-14")) {
            House h = house("hall-1: {kind: luminaire}", "hall-1: {kind: luminaire, since: " + newer + "}");
            Standing s = standing(List.of(h), at("K1.black@2", "2026-03-14"));
            assertThat(s.expired().values())
                    .as("since %s", newer)
                    .containsExactly(List.of(new Expiry.Change("hall-1", Expiry.How.NEWER)));
        }
        House older = house("hall-1: {kind: luminaire}", "hall-1: {kind: luminaire, since: 2026-02}");
        assertThat(standing(List.of(older), at("K1.black@2", "2026-03-14")).standing())
                .hasSize(1);
    }
}
