package org.splicebook.render.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;

/** NEC 406.4(D)(2): which receptacle gets which mark, on a house that has every case of it. */
class ReceptacleLabelsTest {
    private static final Path FILE = Path.of("src/test/resources/org/splicebook/render/sheet/marks.house.yaml");
    private static final LocalDate DAY = LocalDate.of(2026, 4, 1);

    private static List<Sheet.Block> blocks() {
        House house = HouseFiles.read(FILE).get();
        return ReceptacleLabels.of(new Source(
                Derivation.derive(house),
                1,
                DAY,
                DAY,
                false,
                List.of(),
                (q, p) -> {
                    throw new IllegalStateException(q);
                },
                name -> Optional.empty()));
    }

    /** The words under the title that says so. */
    private static String under(String title) {
        List<Sheet.Block> all = blocks();
        int at = all.indexOf(all.stream()
                .filter(b -> b instanceof Sheet.Title t && t.words().contains(title))
                .findFirst()
                .orElseThrow());
        StringBuilder words = new StringBuilder();
        for (Sheet.Block b : all.subList(at + 1, all.size())) {
            if (!(b instanceof Sheet.Words w)) {
                break;
            }
            words.append(w.words()).append('\n');
        }
        return words.toString();
    }

    @Test
    void deviceItselfIsMarkedForTheGroundAndWhatHangsOnItsLoadSideForBoth() {
        Map<String, List<String>> marks = blocks().stream()
                .filter(Sheet.Label.class::isInstance)
                .map(Sheet.Label.class::cast)
                .collect(java.util.stream.Collectors.toMap(Sheet.Label::small, Sheet.Label::lines));
        assertThat(marks)
                .isEqualTo(Map.of(
                        "gf, Hall", List.of("NO EQUIPMENT GROUND"),
                        "down, Hall", List.of("GFCI PROTECTED", "NO EQUIPMENT GROUND")));
    }

    @Test
    void aheadOfItAndOnItsLineSideGetNoMarkAndAreTold() {
        assertThat(under("not shown to be protected"))
                .contains("up, Hall", "beside, Hall")
                .doesNotContain("down");
    }

    @Test
    void groundThatIsNotCertainIsTestedFirstAndAGroundedOneIsNotNamed() {
        assertThat(under("Ground not certain")).contains("half, Hall");
        assertThat(blocks().toString()).doesNotContain("whole, Hall");
    }
}
