package org.splicebook.wiring.shutoff;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.wiring.Sureness;

/** What must be off before boxes of the sample house are opened. */
class SampleHouseShutOffTest {
    private static House house;
    private static ShutOffs shutOffs;

    @BeforeAll
    static void read() {
        house = HouseFiles.read(Path.of("sample-house")).get();
        shutOffs = ShutOffs.of(house, house.sightings());
    }

    private static ShutOff box(String name) {
        return shutOffs.of(Target.box(name));
    }

    private static List<String> breakers(ShutOff s) {
        return s.toThrow().stream().flatMap(t -> t.breakers().stream()).toList();
    }

    @Test
    void aSharedNeutralBringsItsPartnerAlong() {
        ShutOff s = box("living-south");
        assertThat(breakers(s)).containsExactly("main.9", "main.11");
        assertThat(s.verdict()).isEqualTo(Verdict.SHOULD_BE_OFF);
        assertThat(s.wires())
                .filteredOn(w -> w.wire().equals("C11c.white@2") && w.breaker().equals("main.9"))
                .singleElement()
                .satisfies(w -> {
                    assertThat(w.how()).isEqualTo(ShutOff.How.THROUGH_LOAD);
                    assertThat(w.sureness()).isEqualTo(Sureness.SHOWN);
                });
    }

    @Test
    void aBorrowedNeutralBringsBothBreakersAlong() {
        assertThat(breakers(box("stair-head"))).containsExactly("main.10", "main.20");
    }

    @Test
    void aBellTransformerIsFollowedToItsBreaker() {
        assertThat(breakers(box("chime-box"))).containsExactly("main.26");
    }

    @Test
    void aBoxOfTheSubpanelNeedsItsBreakerThereAlone() {
        ShutOff s = box("garage-bench");
        assertThat(breakers(s)).containsExactly("garage-panel.1");
        assertThat(s.excluded()).extracting(ShutOff.Excluded::breaker).doesNotContain("main.23+25");
    }

    @Test
    void whatNobodyOpenedIsNeverSaidToBeOff() {
        ShutOff s = box("bedroom-front-1");
        assertThat(breakers(s)).contains("main.34", "main.36");
        assertThat(s.verdict()).isEqualTo(Verdict.UNLESS_UNLISTED);
        assertThat(s.clearingEverythingIsSafer()).isTrue();
        assertThat(s.openBoxes()).contains("bedroom-front-1", "attic-hatch");
    }

    @Test
    void noSafeShutOffIsKnownForThePanelWithTheMain() {
        ShutOff s = box("main");
        assertThat(s.verdict()).isEqualTo(Verdict.NONE_KNOWN);
        assertThat(s.staysLive())
                .singleElement()
                .satisfies(l ->
                        assertThat(l.things()).extracting(t -> t.name()).containsExactly("main.line-1", "main.line-2"));
    }

    @Test
    void theSumpPumpIsNamedBeforeItGoesOff() {
        assertThat(box("sump-pit").affected())
                .filteredOn(a -> a.care() == Care.WATER)
                .extracting(ShutOff.Affected::loadPoint)
                .containsExactly("sump");
    }

    @Test
    void everyPairInABoxIsTested() {
        // Nine wire ends: 36 pairs and 9 readings to ground.
        ShutOff s = box("dining-sideboard");
        int n = (int) s.tests().stream().filter(t -> t.against() == null).count();
        assertThat(s.tests()).hasSize(n + n * (n - 1) / 2).doesNotHaveDuplicates();
    }

    @Test
    void eachWireEndIsLiftedInTurnAndTheProofHolds() {
        ShutOff s = box("dining-sideboard");
        assertThat(s.proof().holds()).isTrue();
        assertThat(s.proof().variants())
                .extracting(ShutOff.Proof.Variant::lifted)
                .contains("", "*", "C9a.white@2", "C11b.black@1");
    }

    @Test
    void aBoxThatIsNotInTheRecordIsRefused() {
        assertThatThrownBy(() -> box("no-such-box")).isInstanceOf(IllegalArgumentException.class);
    }
}
