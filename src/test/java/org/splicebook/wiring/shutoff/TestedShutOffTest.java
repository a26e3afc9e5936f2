package org.splicebook.wiring.shutoff;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.Sighting.Reading;

/** What paired tests spare: a house of three circuits of which nobody knows where their hots land in the panel. */
class TestedShutOffTest {
    private static final Map<String, String> FED =
            Map.of("K1.black@2", "main.1", "K2.black@2", "main.3", "K3.black@2", "main.5");

    private static House house;

    @BeforeAll
    static void read() {
        house = HouseFiles.read(Path.of("src/test/resources/org/splicebook/wiring/shutoff/quay-cottage.yaml"))
                .get();
    }

    private static List<Sighting> tests(String point, String pass, String instrument) {
        List<Sighting> made = new ArrayList<>();
        for (String off : List.of("main.1", "main.3", "main.5", "main.7")) {
            Reading read = off.equals(FED.get(point)) ? Reading.NOT_LIT : Reading.LIT;
            made.add(new Sighting(
                    point + off + pass,
                    "2026-03-14",
                    List.of(off),
                    Map.of(),
                    instrument,
                    pass,
                    null,
                    new Sighting.Lit(point, Reading.LIT, read, Reading.LIT),
                    null));
        }
        return made;
    }

    private static List<Sighting> tests(String pass, String instrument) {
        return FED.keySet().stream()
                .flatMap(p -> tests(p, pass, instrument).stream())
                .toList();
    }

    private static List<Sighting> both(List<Sighting> a, List<Sighting> b) {
        return Stream.concat(a.stream(), b.stream()).toList();
    }

    private static ShutOff hall(List<Sighting> sightings) {
        return ShutOff.of(house, sightings, Target.box("hall"));
    }

    private static List<String> thrown(ShutOff s) {
        return s.toThrow().stream().flatMap(t -> t.breakers().stream()).toList();
    }

    @Test
    void withoutTestsEveryBreakerMustBeOff() {
        assertThat(thrown(hall(List.of()))).containsExactlyInAnyOrder("main.1", "main.3", "main.5", "main.7");
    }

    @Test
    void twoAgreeingTestsFromTwoPassesExclude() {
        ShutOff s = hall(both(tests("a", "meter"), tests("b", "lamp")));
        assertThat(thrown(s)).containsExactly("main.1");
        assertThat(s.excluded())
                .hasSize(3)
                .allSatisfy(e -> assertThat(e.tests()).isNotEmpty());
        assertThat(s.proof().holds()).isTrue();
    }

    @Test
    void onePassExcludesNothingHoweverOftenItIsWrittenDown() {
        assertThat(thrown(hall(tests("a", "meter")))).hasSize(4);
        List<Sighting> again = tests("a", "meter").stream()
                .map(s -> new Sighting(
                        s.id() + "again",
                        s.date(),
                        s.withOff(),
                        s.levers(),
                        s.instrument(),
                        s.pass(),
                        s.by(),
                        s.seen(),
                        s.note()))
                .toList();
        assertThat(thrown(hall(both(tests("a", "meter"), again)))).hasSize(4);
    }

    @Test
    void twoPassesOverUnlikeWiresExcludeNothing() {
        List<Sighting> unlike = both(
                tests("K1.black@2", "a", "meter"),
                both(tests("K2.black@2", "b", "meter"), tests("K3.black@2", "b", "meter")));
        assertThat(thrown(hall(unlike))).hasSize(4);
    }

    @Test
    void outCountsOnlyAsLitAfterwardsToo() {
        List<Sighting> never = both(tests("a", "meter"), tests("b", "meter")).stream()
                .map(s -> new Sighting(
                        s.id(),
                        s.date(),
                        s.withOff(),
                        s.levers(),
                        s.instrument(),
                        s.pass(),
                        s.by(),
                        new Sighting.Lit(
                                ((Sighting.Lit) s.seen()).at(),
                                Reading.LIT,
                                ((Sighting.Lit) s.seen()).read(),
                                Reading.NOT_TRIED),
                        s.note()))
                .toList();
        assertThat(thrown(hall(never))).hasSize(4);
    }

    @Test
    void aContactlessProbeExcludesNothing() {
        assertThat(thrown(hall(both(tests("a", "meter"), tests("b", "contactless probe")))))
                .hasSize(4);
    }

    @Test
    void aTestThatAnotherReadingContradictsExcludesNothing() {
        Sighting wrong = new Sighting(
                "wrong",
                "2026-03-15",
                List.of("main.1"),
                Map.of(),
                "meter",
                "c",
                null,
                new Sighting.Lit("K1.black@2", Reading.LIT, Reading.LIT, Reading.LIT),
                null);
        List<Sighting> all = both(both(tests("a", "meter"), tests("b", "lamp")), List.of(wrong));
        assertThat(thrown(hall(all))).contains("main.1").hasSizeGreaterThan(1);
    }

    @Test
    void aHotThatNobodyTestedMayBeOnAny() {
        List<Sighting> hallOnly = both(tests("K1.black@2", "a", "meter"), tests("K1.black@2", "b", "meter"));
        assertThat(thrown(ShutOff.of(house, hallOnly, Target.box("stair"))))
                .containsExactlyInAnyOrder("main.1", "main.3", "main.5", "main.7");
    }
}
