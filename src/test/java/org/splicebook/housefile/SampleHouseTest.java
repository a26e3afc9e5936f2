package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.PlaceKind;
import org.splicebook.store.MemoryStore;
import org.splicebook.wiring.Derivation;

/** The sample house and the bare one beside it, as files. */
class SampleHouseTest {
    private static final Path FOLDER = Path.of("sample-house");
    private static final Pattern QUOTED = Pattern.compile("`([^`]+)`");
    private static final Pattern ROW_END = Pattern.compile("\\|([^|]*)\\|$");

    private final House house = HouseFiles.read(FOLDER).get();
    private final House bare = HouseFiles.read(FOLDER.resolve("bare")).get();

    @ParameterizedTest
    @ValueSource(strings = {"sample-house", "sample-house/bare"})
    void isReadWithoutAWord(String folder) {
        Result<House> read = HouseFiles.read(Path.of(folder));
        assertThat(read.problems()).isEmpty();
        assertThat(read.isOk()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"sample-house", "sample-house/bare"})
    void writtenAndReadAgainItIsTheSame(String folder) {
        House read = HouseFiles.read(Path.of(folder)).get();
        assertThat(HouseFiles.parse("written", HouseWriter.write(read)).get()).isEqualTo(read);
    }

    @ParameterizedTest
    @ValueSource(strings = {"sample-house", "sample-house/bare"})
    void rewritingItLosesNoComment(String folder) throws IOException {
        try (var files = Files.list(Path.of(folder))) {
            for (Path f : files.filter(p -> p.toString().endsWith(".yaml")).toList()) {
                assertThat(HouseFiles.commentsAtRisk(f.toString(), Files.readString(f)))
                        .as(f.toString())
                        .isEmpty();
            }
        }
    }

    @Test
    void itIsAsLargeAsAHouse() {
        assertThat(house.panels().keySet()).containsExactly("main", "garage-panel");
        assertThat(house.panels().get("main").breakers()).hasSize(31);
        assertThat(house.boxes()).hasSize(107);
        assertThat(house.cables()).hasSize(95);
        assertThat(loadPoints(house)).isEqualTo(129);
        assertThat(house.sightings()).hasSizeGreaterThan(30);
    }

    @Test
    void everyRoomOfAHouseIsThere() {
        assertThat(house.places().values())
                .extracting(p -> p.kind())
                .contains(
                        PlaceKind.KITCHEN,
                        PlaceKind.DINING,
                        PlaceKind.LIVING,
                        PlaceKind.HALL,
                        PlaceKind.STAIRS,
                        PlaceKind.BEDROOM,
                        PlaceKind.BATHROOM,
                        PlaceKind.LAUNDRY,
                        PlaceKind.WORKSHOP,
                        PlaceKind.UTILITY,
                        PlaceKind.ATTIC,
                        PlaceKind.PORCH,
                        PlaceKind.OUTDOORS,
                        PlaceKind.GARAGE);
        assertThat(house.places().keySet())
                .allSatisfy(p -> assertThat(house.boxes().values()).anyMatch(b -> p.equals(b.place())));
    }

    @Test
    void onlyBedroomsAndAtticWereNotOpened() {
        Set<String> unopened = new HashSet<>();
        for (Box b : house.boxes().values()) {
            if (!house.isComplete(b, Complete.CABLES) || !house.isComplete(b, Complete.JOINTS)) {
                assertThat(b.joints()).as(b.name()).isEmpty();
                unopened.add(String.valueOf(b.place()));
            }
        }
        assertThat(unopened).containsExactlyInAnyOrder("bedroom-front", "bedroom-back", "bedroom-small", "attic");
    }

    @Test
    void theBareHouseHasNamesButNoCables() {
        assertThat(bare.cables()).isEmpty();
        assertThat(bare.boxes().values()).allSatisfy(b -> assertThat(b.joints()).isEmpty());
        assertThat(loadPoints(bare)).isEqualTo(128);
        assertThat(house.boxes().keySet()).containsAll(bare.boxes().keySet());
        assertThat(house.panels().get("main").breakers().keySet())
                .isEqualTo(bare.panels().get("main").breakers().keySet());
        assertThat(bare.sightings()).hasSizeGreaterThan(8);
    }

    /** Every name in the page's tables is in the house. */
    @Test
    void thePageNamesOnlyWhatIsThere() throws IOException {
        Set<String> names = names();
        List<String> missing = new ArrayList<>();
        for (String line : page()) {
            if (line.contains("`queries/`")
                    || line.contains(".yaml`")
                    || line.contains("`bare/`")
                    || line.contains("`check ")) {
                continue;
            }
            Matcher m = QUOTED.matcher(line);
            while (m.find()) {
                // A landing is named by its panel and a wire end; some findings are about the house as a whole.
                String name = m.group(1).replaceFirst(".*:", "");
                if (!name.equals("house")
                        && !names.contains(name)
                        && !names.contains(name.replaceAll("\\..*", ""))
                        && !isQuestion(name, line)) {
                    missing.add(name);
                }
            }
        }
        assertThat(missing).isEmpty();
    }

    @Test
    void thePageNamesQuestionsThatExist() throws IOException {
        Path queries = Path.of("queries");
        assumeTrue(Files.isDirectory(queries), "the questions lie in queries/");
        List<String> missing = new ArrayList<>();
        for (String line : page()) {
            for (String question : questions(line)) {
                if (!Files.exists(queries.resolve(question + ".cypher")) && !isComputed(question)) {
                    missing.add(question);
                }
            }
        }
        assertThat(missing).isEmpty();
    }

    private static boolean isComputed(String question) {
        return new AnsweringStore(new MemoryStore(), Derivation::derive)
                .questions().stream().anyMatch(q -> q.id().equals(question));
    }

    private static List<String> page() throws IOException {
        return Files.readAllLines(FOLDER.resolve("README.md"));
    }

    private static boolean isQuestion(String name, String line) {
        return questions(line).contains(name);
    }

    /** The quoted words of a row's last cell that do not stand in brackets; other tables have none there that look so. */
    private static List<String> questions(String line) {
        Matcher end = ROW_END.matcher(line);
        List<String> found = new ArrayList<>();
        if (end.find() && line.chars().filter(c -> c == '|').count() == 4) {
            Matcher m = QUOTED.matcher(end.group(1).replaceAll("\\([^)]*\\)", ""));
            while (m.find()) {
                found.add(m.group(1));
            }
        }
        return found;
    }

    private Set<String> names() {
        Set<String> names = new HashSet<>(house.boxes().keySet());
        names.addAll(house.cables().keySet());
        names.addAll(house.panels().keySet());
        house.boxes().values().forEach(b -> names.addAll(b.devices().keySet()));
        house.sightings().forEach(s -> names.add(s.id()));
        return names;
    }

    private static int loadPoints(House h) {
        return h.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .mapToInt(d -> d.kind().loadPoints().size())
                .sum();
    }
}
