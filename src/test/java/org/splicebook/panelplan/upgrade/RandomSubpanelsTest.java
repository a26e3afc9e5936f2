package org.splicebook.panelplan.upgrade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.panelplan.TellReader;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.rewire.Drafts;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;

/** Further panels of random houses, with all that is odd in their wiring: every load has what it had, and nothing new is found. */
class RandomSubpanelsTest {
    private static final int HOUSES = Integer.getInteger("subpanel.houses", 60);

    private static Stream<SubpanelPlan> plans(long seed) {
        House house = RandomHouses.house(seed, Shape.of(seed));
        return Stream.of(true, false).flatMap(isBacked -> {
            TellReader loads = new TellReader(house);
            loads.allListed();
            SubpanelReader reader = new SubpanelReader(house, "main", loads);
            reader.year(2026);
            if (isBacked) {
                reader.source("7.6 kW");
                reader.volts(seed % 3 == 0 ? "120" : "120/240");
                reader.spaces(6 + (int) seed % 7);
            } else {
                reader.free(1 + (int) seed % 3);
            }
            Result<SubpanelPlan> plan =
                    Subpanels.plan(house, Packs.of(house), reader.read().get(), null);
            return plan.isOk() ? Stream.of(plan.get()) : Stream.empty();
        });
    }

    /** A crossing that is of another kind now that its poles have a common handle, and a milder one. */
    private static boolean isMilder(Finding f, Comparison all) {
        return all.cured().stream()
                .anyMatch(c -> c.subject().equals(f.subject()) && c.severity().compareTo(f.severity()) < 0);
    }

    @Test
    void everyLoadHasWhatItHadAndNothingNewIsFound() {
        List<SubpanelPlan> all = LongStream.range(0, HOUSES)
                .boxed()
                .flatMap(RandomSubpanelsTest::plans)
                .toList();
        int drafted = 0;
        int refused = 0;
        for (SubpanelPlan p : all) {
            SubpanelPlan.Drafted d = p.drafted();
            if (d == null) {
                assertThat(p.notDrafted()).isNotEmpty();
                refused += p.notDrafted().startsWith("With them") ? 1 : 0;
                continue;
            }
            drafted++;
            String seed = p.house().id() + (p.wanted().isBackedUp() ? ", backed up" : ", for room");
            assertThat(SubpanelDraftTest.served(d.after())).as(seed).isEqualTo(SubpanelDraftTest.served(p.house()));
            assertThat(d.findings().added().stream()
                            .filter(f -> f.certainty() != Certainty.ASKED && !isMilder(f, d.findings()))
                            .map(f -> f.key() + ": " + f.said()))
                    .as(seed)
                    .isEmpty();
            assertThat(Drafts.of(
                                    DraftFiles.parse("again", DraftFiles.write(d.draft()), p.house())
                                            .get()
                                            .draft(),
                                    p.house())
                            .get())
                    .as(seed)
                    .isEqualTo(d.after());
        }
        assertThat(drafted).isGreaterThan(HOUSES / 2);
        assertThat(refused).as("of %d", drafted).isLessThanOrEqualTo(drafted / 50);
    }
}
