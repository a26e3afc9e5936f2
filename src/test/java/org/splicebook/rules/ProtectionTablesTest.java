package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.record.House;

/**
 * Ground-fault and arc-fault cover by place, equipment and edition, and since when, cell by cell against tables of their own: what the
 * packs say is held to what was typed from the trade's tables.
 */
class ProtectionTablesTest {
    private static final Path FOLDER = Path.of("src/test/resources/org/splicebook/rules/tables");
    private static final List<Integer> EDITIONS = List.of(2014, 2017, 2020, 2023, 2026);

    /** One cell: what a rule of an edition must make of a house with one outlet. */
    record Cell(
            String rule,
            int edition,
            String place,
            String finished,
            String kind,
            String load,
            String amperes,
            String wanted) {}

    static Stream<Cell> groundFaultPlaces() {
        return rows("ground-fault-places.csv")
                .flatMap(r -> cells(r, 4)
                        .map(c -> new Cell(
                                "ground-fault-by-place", c.edition(), r[0], r[1], r[2], r[3], "20", c.wanted())));
    }

    static Stream<Cell> groundFaultEquipment() {
        return rows("ground-fault-equipment.csv")
                .flatMap(
                        r -> cells(r, 4).map(c -> new Cell(r[0], c.edition(), r[1], "", r[2], r[3], "20", c.wanted())));
    }

    static Stream<Cell> arcFaultRooms() {
        return rows("arc-fault-rooms.csv")
                .flatMap(r -> cells(r, 3)
                        .map(c -> new Cell(
                                "arc-fault-by-room",
                                c.edition(),
                                r[0],
                                r[1],
                                "duplex-receptacle",
                                "",
                                r[2],
                                c.wanted())));
    }

    private record Wanted(int edition, String wanted) {}

    private static Stream<Wanted> cells(String[] row, int from) {
        return IntStream.range(0, EDITIONS.size()).mapToObj(i -> new Wanted(EDITIONS.get(i), row[from + i]));
    }

    @ParameterizedTest
    @MethodSource({"groundFaultPlaces", "groundFaultEquipment", "arcFaultRooms"})
    void aCellOfTheTableIsWhatTheEditionAsksFor(Cell c) {
        List<Finding> all =
                found(c.rule(), c.edition(), house(c.place(), c.finished(), c.kind(), c.load(), c.amperes(), ""));
        String said = all.isEmpty() ? "n" : all.get(0).certainty() == Certainty.FOUND ? "y" : "q";
        assertThat(said).as("%s", all).isEqualTo(c.wanted());
    }

    static Stream<String[]> firstAsked() {
        return rows("first-asked.csv");
    }

    /** Built the year before: allowed. In the year from which it is sure: not allowed. Between: not known. */
    @ParameterizedTest
    @MethodSource("firstAsked")
    void whetherItWasAllowedWhenBuiltHangsOnTheYear(
            String rule, String place, String finished, String kind, String load, String perhaps, String sure) {
        int first = Integer.parseInt(perhaps);
        int last = Integer.parseInt(sure);
        assertThat(whenBuilt(rule, place, finished, kind, load, first - 1)).isEqualTo(Judged.WhenBuilt.ALLOWED);
        assertThat(whenBuilt(rule, place, finished, kind, load, last)).isEqualTo(Judged.WhenBuilt.NOT_ALLOWED);
        if (first < last) {
            assertThat(whenBuilt(rule, place, finished, kind, load, first)).isEqualTo(Judged.WhenBuilt.UNKNOWN);
            assertThat(whenBuilt(rule, place, finished, kind, load, last - 1)).isEqualTo(Judged.WhenBuilt.UNKNOWN);
        }
    }

    @Test
    void aCircuitIsJudgedByTheRoomThatWasAskedForFirst() {
        Map<String, Object> set = new LinkedHashMap<>();
        set.put("built", "2004");
        set.put("places.room.kind", "living");
        set.put("boxes.a2.place", "bed");
        set.put("places.bed", Map.of("kind", "bedroom"));
        assertThat(found("arc-fault-by-room", 2023, Cases.house("us", set)))
                .filteredOn(f -> f.subject().equals("main.1"))
                .extracting(f -> f.judged().whenBuilt())
                .containsExactly(Judged.WhenBuilt.NOT_ALLOWED);
    }

    /** What nobody found in print for 2026 says so in each finding; what was checked says nothing. */
    @Test
    void unsureFactsAreMarkedInTheFinding() {
        House garage = house("garage", "", "duplex-receptacle", "", "20", "");
        assertThat(found("ground-fault-by-place", 2026, garage))
                .isNotEmpty()
                .allMatch(f -> f.mark().contains("unsure"));
        assertThat(found("ground-fault-by-place", 2020, garage))
                .isNotEmpty()
                .allMatch(f -> f.mark().isEmpty());
        House light = house("crawl-space", "", "luminaire", "", "15", "");
        assertThat(found("ground-fault-crawl-space-light", 2020, light))
                .isNotEmpty()
                .allMatch(f -> f.mark().contains("from memory"));
    }

    private static Judged.WhenBuilt whenBuilt(
            String rule, String place, String finished, String kind, String load, int built) {
        return found(rule, 2023, house(place, finished, kind, load, "20", String.valueOf(built)))
                .get(0)
                .judged()
                .whenBuilt();
    }

    private static List<Finding> found(String rule, int edition, House house) {
        Pack whole = Packs.us(edition);
        RuleText text = whole.rules().get(rule);
        return text == null
                ? List.of()
                : Checks.of(house, new Pack(whole.id(), whole.title(), edition, Map.of(rule, text)));
    }

    /** A panel in a place that no rule speaks of, one breaker, one outlet. */
    private static House house(String place, String finished, String kind, String load, String amperes, String built) {
        boolean neutral =
                !kind.equals("receptacle-240") && !kind.equals("appliance-240") && !kind.equals("condensing-unit");
        boolean two = !neutral || kind.contains("120-240");
        Map<String, Object> device = new LinkedHashMap<>(Map.of("kind", kind));
        if (!load.isEmpty()) {
            device.put("load", load);
        }
        Map<String, Object> joints = new LinkedHashMap<>();
        joints.put("hot", List.of("A.black", two ? "x.hot-1" : "x.hot"));
        if (two) {
            joints.put("red", List.of("A.red", "x.hot-2"));
        }
        if (neutral) {
            joints.put("neutral", List.of("A.white", "x.neutral"));
        }
        joints.put("ground", List.of("A.bare", "x.ground"));
        Map<String, Object> set = new LinkedHashMap<>();
        set.put("built", built.isEmpty() ? "~" : built);
        Map<String, Object> room = new LinkedHashMap<>(Map.of("kind", place));
        if (!finished.isEmpty()) {
            room.put("finished", finished);
        }
        set.put("places", Map.of("room", room, "store", Map.of("kind", "attic")));
        set.put("panels.sub", "~");
        set.put("panels.main.place", "store");
        set.put("panels.main.breakers", Map.of(two ? "1+3" : "1", Map.of("rating", amperes + " A", "label", "One")));
        Map<String, Object> landings = new LinkedHashMap<>();
        landings.put("one", List.of("1", "A.black"));
        if (two) {
            landings.put("three", List.of("3", "A.red"));
        }
        landings.put("n", List.of("n", "A.white"));
        landings.put("g", List.of("g", "A.bare"));
        set.put("panels.main.joints", landings);
        set.put(
                "cables",
                Map.of(
                        "A",
                        Map.of(
                                "kind",
                                "NM-B",
                                "wires",
                                two ? "12/3+ground" : "12/2+ground",
                                "ends",
                                List.of("main", "a"))));
        Map<String, Object> box = new LinkedHashMap<>(Map.of("place", "room", "devices", Map.of("x", device)));
        box.put("joints", joints);
        set.put("boxes", Map.of("a", box));
        return Cases.house("us", set);
    }

    private static Stream<String[]> rows(String file) {
        try {
            return Files.readAllLines(FOLDER.resolve(file)).stream()
                    .filter(l -> !l.startsWith("#"))
                    .map(l -> l.split(","));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
