package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** The page of the sample house says which question finds what: it does. */
class SampleHouseQuestionsIT {
    @TempDir
    static Path folder;

    static Neo4jHouseStore store;
    static String id;

    @BeforeAll
    static void open() {
        House house = HouseFiles.read(Path.of("sample-house")).get();
        id = house.id();
        store = QuestionHouses.store(folder, List.of());
        store.put(house, 0, "Rowan", "the sample").get();
    }

    @AfterAll
    static void close() {
        store.close();
    }

    @ParameterizedTest
    @CsvSource({
        "half-switched, '', living-3",
        "no-neutral-switches, '', dining-door",
        "reversed-devices, '', sink-gf",
        "bonded-subpanels, '', garage-panel",
        "small-wires, '', C9d.black",
        "box-breakers, box=dining-sideboard, main.9 main.11",
        "way-back, point=dining-1.top, main.9 main.n",
        "way-back, point=dining-1.bottom, main.11 main.n",
        "wire-use, wire=C10b.white, hot of main.10",
        "wire-use, wire=C10d.white, hot of main.10",
        "relies-on-device, device=shop-gf, shop-gf half-bath-1.top half-bath-1.bottom bath-1.top bath-1.bottom porch-1.top"
                + " porch-1.bottom",
        "relies-on-device, device=garage-gf, garage-gf garage-1.top garage-1.bottom outside-1.top outside-1.bottom"
                + " garden-1.top garden-1.bottom",
        "protected-by, point=bath-1.top, shop-gf main.18 main",
        "protected-by, point=sink-gf, main.22 main",
        "what-goes-off, thing=C18c, bath-1.top bath-1.bottom porch-1.top porch-1.bottom",
        "what-goes-off, thing=main.32, freezer",
        "shares-neutral, breaker=main.9, main.11",
    })
    void whatIsShownIsWhatThePageSays(String question, String parameter, String expected) {
        assertThat(String.join(" ", shown((Answer) ask(question, parameter), Row.Status.SHOWN)))
                .isEqualTo(sorted(expected));
    }

    @ParameterizedTest
    @CsvSource({
        "box-breakers, box=bedroom-front-1, main.24 main.34 main.36",
        "wire-use, wire=C9d.bare, nothing known",
    })
    void whatIsOnlyPossibleIsToldAsPossible(String question, String parameter, String expected) {
        Answer answer = (Answer) ask(question, parameter);
        assertThat(answer.rows(Row.Status.SHOWN)).isEmpty();
        assertThat(String.join(" ", shown(answer, Row.Status.POSSIBLE))).isEqualTo(sorted(expected));
        assertThat(answer.notProven()).isNotEmpty();
    }

    @Test
    void everyCrossingOfThePageIsFoundAndNoOther() {
        Answer crossings = (Answer) ask("neutral-crossings", "");
        Map<String, Long> kinds = crossings.rows().stream()
                .map(r -> String.valueOf(r.columns().get("kind")))
                .collect(Collectors.groupingBy(k -> k, TreeMap::new, Collectors.counting()));
        assertThat(kinds)
                .isEqualTo(Map.of(
                        "borrowed", 1L,
                        "multiwire-without-common-disconnect", 1L,
                        "shared-on-one-leg", 1L,
                        "multiwire", 3L,
                        "neutral-to-ground", 1L));
        assertThat(crossings.rows())
                .filteredOn(r -> "borrowed".equals(r.columns().get("kind")))
                .allMatch(r -> "stair-head".equals(r.columns().get("box")));
    }

    @Test
    void listingsFindTheSpareTheHiddenBoxTheLostCableAndWhatIsOpen() {
        assertThat(column("capped-wires", "wire")).containsOnly("C31b.red").hasSize(2);
        assertThat(column("hidden-boxes", "box")).containsExactly("buried-splice");
        assertThat(column("lost-cables", "cable")).contains("U1");
        assertThat(column("open-regions", "breakers")).containsExactly(List.of("main.24", "main.34", "main.36"));
        assertThat(((Listing) ask("cables", "kind=BX")).rows()).hasSize(5);
        assertThat(((Listing) ask("breakers", "")).rows()).hasSize(34);
        assertThat(column("load-points", "point")).hasSize(129).contains("freezer", "sump", "furnace");
    }

    @Test
    void oldRunsHaveNoGroundAndAGroundThatLeadsNowhereIsNone() {
        assertThat(shown((Answer) ask("ungrounded", ""), Row.Status.SHOWN))
                .contains("hall-1.top", "living-1.top", "bath-light", "bath-fan")
                .doesNotContain("bath-1.top", "garage-1.top");
    }

    @Test
    void theCheapestTestOfTheBedroomsIsABreakerAndAWalk() {
        Answer box = (Answer) ask("box-breakers", "box=bedroom-front-1");
        assertThat(box.wouldSettle()).first().asString().startsWith("Turn main.24 off and look at ");
        assertThat(box.notProven()).anyMatch(n -> n.contains("none of these is excluded"));
    }

    private static List<String> shown(Answer answer, Row.Status status) {
        return answer.rows(status).stream().map(Row::subject).sorted().toList();
    }

    private static String sorted(String expected) {
        Set<String> phrases = Set.of("hot of main.10", "nothing known");
        return phrases.contains(expected)
                ? expected
                : List.of(expected.split(" ")).stream().sorted().collect(Collectors.joining(" "));
    }

    private static List<Object> column(String question, String column) {
        Listing listing = (Listing) ask(question, "");
        int at = listing.columns().indexOf(column);
        return listing.rows().stream().map(r -> r.get(at)).toList();
    }

    private static Reply ask(String question, String parameter) {
        Map<String, String> parameters = parameter.isEmpty()
                ? Map.of()
                : Map.of(
                        parameter.substring(0, parameter.indexOf('=')),
                        parameter.substring(parameter.indexOf('=') + 1));
        return store.ask(question, id, parameters).get();
    }
}
