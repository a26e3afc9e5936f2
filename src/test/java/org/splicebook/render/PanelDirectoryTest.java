package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.oracle.Hidden;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

class PanelDirectoryTest {
    private static final Wiring SAMPLE =
            Derivation.derive(HouseFiles.read(Path.of("sample-house")).get());

    private static Map<String, PanelDirectory.Line> lines(Wiring w, String panel) {
        Map<String, PanelDirectory.Line> all = new HashMap<>();
        PanelDirectory.of(w, panel).lines().forEach(l -> all.put(l.spaces(), l));
        return all;
    }

    @Test
    void eachLineSaysRoomAndLoadAndNamesTheHalfOfASplitDuplex() {
        Map<String, PanelDirectory.Line> main = lines(SAMPLE, "main");
        assertThat(main.get("9").said()).contains("Dining room: duplex receptacle", "dining-1.top");
        assertThat(main.get("11").said()).contains("dining-1.bottom").doesNotContain("dining-1.top");
        assertThat(main.get("9").sharesNeutral()).containsExactly("main.11");
        assertThat(main.get("1+3").said()).isEqualTo("Kitchen: range");
        assertThat(main.get("2+4").said()).as("no name twice").isEqualTo("Utility room: water heater");
        assertThat(main.get("23+25").said()).isEqualTo("Panel garage-panel: Detached garage");
        assertThat(main.get("28").protects()).containsExactly("arc-fault");
        assertThat(main.get("38").said()).isEqualTo("no breaker");
        assertThat(PanelDirectory.of(SAMPLE, "nope")).isNull();
    }

    @Test
    void whatIsNotKnownIsNeverCalledUnused() {
        Map<String, PanelDirectory.Line> main = lines(SAMPLE, "main");
        assertThat(main.get("35").said()).isEqualTo("unused, as recorded");
        assertThat(main.get("34").said()).startsWith("not known: test (");
        assertThat(main.get("24").said()).contains("more not excluded: test");
    }

    /** Whole and half-hidden houses: what is shown stands on its line, what is possible is counted on it. */
    @ParameterizedTest
    @ValueSource(longs = {1, 50, 99})
    void everyFeedStandsOnItsLine(long first) {
        for (long seed = first; seed < first + 12; seed++) {
            House truth = RandomHouses.house(seed, Shape.SMALL);
            for (House h : new House[] {truth, Hidden.hide(truth, seed, 0.3)}) {
                Wiring w = Derivation.derive(h);
                for (String panel : h.panels().keySet()) {
                    for (PanelDirectory.Line line : lines(w, panel).values()) {
                        holds(w, panel + "." + line.spaces(), line, seed);
                    }
                }
            }
        }
    }

    private static void holds(Wiring w, String breaker, PanelDirectory.Line line, long seed) {
        int may = 0;
        for (LoadPointWiring l : w.loadPoints()) {
            Sureness best = null;
            for (Feed f : l.feeds()) {
                if (f.breaker().equals(breaker) && (best == null || f.sureness().compareTo(best) < 0)) {
                    best = f.sureness();
                }
            }
            if (best == Sureness.MAY) {
                may++;
            } else if (best != null) {
                assertThat(line.said().replace(' ', '-'))
                        .as("seed %d, %s", seed, breaker)
                        .contains(l.device());
            }
        }
        assertThat(line.notProved()).as("seed %d, %s", seed, breaker).isEqualTo(may);
    }
}
