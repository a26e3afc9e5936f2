package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** What may be wrong, asked as people tell it. */
class DiagnoseTest {
    private static List<String> section(Answer a, String title) {
        return a.sections().stream()
                .filter(s -> s.title().startsWith(title))
                .flatMap(s -> s.lines().stream())
                .toList();
    }

    private static Answer ask(String symptoms) {
        return Sample.ask(Sample.pearTree(), "diagnose", "symptoms", symptoms);
    }

    @Test
    void aDeadReceptacleHasRankedSuspectsWithWhatTheyForetellAndATestWithCoversOn() {
        Answer a = ask("dead: living-2; live: living-1");
        assertThat(a.rows()).isNotEmpty();
        assertThat(a.rows().get(0).columns().get("foretells").toString()).contains("living-2.top");
        assertThat(a.rows().get(0).columns().get("chance").toString()).endsWith("%");
        assertThat(section(a, "Next test")).isNotEmpty();
        assertThat(a.cautions()).isNotEmpty();
        assertThat(a.notProven()).anyMatch(s -> s.contains("exclude nothing"));
        assertThat(a.notProven()).anyMatch(s -> s.contains("may still be live"));
    }

    @Test
    void whatHasNothingToDoWithItStandsApartAndIsNotRuledOut() {
        Answer a = ask("dead: living-2; live: living-1");
        assertThat(section(a, "Nothing of this explains it"))
                .anyMatch(l -> l.startsWith("Chance under 1 %") || l.startsWith("Chance 1 %"))
                .anyMatch(l -> l.contains("none is ruled out"));
        assertThat(a.rows())
                .allSatisfy(
                        r -> assertThat(r.columns().get("foretells").toString()).contains("living-2"));
    }

    @Test
    void readingsToAGroundThatLeadsNowhereAreSaidToTellNothing() {
        assertThat(section(ask("dead: living-2; volts at living-2: hn=2 hg=120 ng=118"), "By the record no ground"))
                .contains("living-2.top");
    }

    @Test
    void whatNeedsNoFaultIsSaidToNeedNone() {
        Answer a = ask("live: living-2, living-1");
        assertThat(a.outcome()).contains("Nothing that was told needs a fault");
        assertThat(a.rows()).isEmpty();
        assertThat(section(a, "Faults that would show just this")).isNotEmpty();
    }

    @Test
    void namesAndFormsThatAreNotUnderstoodAreToldTogether() {
        var problems = Sample.problems(
                Sample.pearTree(),
                "diagnose",
                "symptoms",
                "dead: livng-2; sparks: bench-1; volts at living-2: xx=3; hm");
        assertThat(problems).hasSize(4);
        assertThat(problems)
                .anyMatch(p -> p.said().contains("livng-2") && p.said().contains("living-2"));
        assertThat(problems).anyMatch(p -> p.said().contains("sparks"));
        assertThat(Sample.problems(Sample.pearTree(), "diagnose", "symptoms", "last touched: living-east"))
                .isNotEmpty();
    }

    @Test
    void everyFormIsUnderstood() {
        Answer a = ask(
                "Dead: living-2.top when main.7 off; dims: living-1 with living-3 on and hall-sw=down; trips: main.9;"
                        + " holds: main.11; volts at living-2: hn=2V, hg=120 ng=~; volts between living-1 and dining-1: 240 V;"
                        + " last touched: living-1; bright: hall-1");
        assertThat(section(a, "As it was understood")).hasSize(8);
    }

    @Test
    void aHouseWithoutWiringOnRecordIsNotSaidToBeSound() {
        House faces =
                HouseFiles.read(java.nio.file.Path.of("sample-house/bare")).get();
        Answer a = Sample.ask(faces, "diagnose", "symptoms", "dead: living-2; live: living-1");
        assertThat(a.outcome()).contains("does not show how", "living-2.top").doesNotContain("needs a fault");
        assertThat(section(a, "Not shown by the record")).contains("living-2.top");
    }
}
