package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Acceptance;
import org.splicebook.record.House;

class CheckedTest {
    private final House house = HouseFiles.read(Path.of("sample-house")).get();
    private final Checked checked = Checked.of(house, Packs.us(2023));
    private final Finding one = checked.open().get(3);

    private static Acceptance acceptance(String key, String said) {
        return new Acceptance(key, "found", said, "The owner knows.", "R.", "2026-03-01");
    }

    private Checked with(Acceptance... all) {
        return Checked.of(house.withAccepted(List.of(all)), Packs.us(2023));
    }

    @Test
    void everyFindingHasAKeyOfItsOwn() {
        assertThat(new TreeSet<>(checked.all().stream().map(Finding::key).toList()))
                .hasSameSizeAs(checked.all());
    }

    @Test
    void acceptedFindingIsKeptApart() {
        Checked after = with(acceptance(one.key(), one.said()));
        assertThat(after.open()).doesNotContain(one).hasSize(checked.open().size() - 1);
        assertThat(after.accepted()).singleElement().satisfies(a -> {
            assertThat(a.finding()).isEqualTo(one);
            assertThat(a.acceptance().reason()).isEqualTo("The owner knows.");
        });
        assertThat(after.all()).isEqualTo(checked.all());
    }

    @Test
    void acceptedFindingComesBackWhenItSaysSomethingElse() {
        Checked after = with(acceptance(one.key(), "It was otherwise."));
        assertThat(after.open()).contains(one);
        assertThat(after.accepted()).isEmpty();
        assertThat(after.returned()).hasSize(1);
    }

    @Test
    void whatWasAcceptedAsPossibleComesBackWhenItIsShown() {
        Checked after = with(new Acceptance(one.key(), "possible", one.said(), "Not sure.", "R.", "2026-03-01"));
        assertThat(one.certainty()).isEqualTo(Certainty.FOUND);
        assertThat(after.open()).contains(one);
        assertThat(after.returned()).hasSize(1);
    }

    @Test
    void acceptanceOfWhatIsFoundNoMoreIsTold() {
        Checked after = with(acceptance("hidden-box/gone", "There was one."));
        assertThat(after.settled()).hasSize(1);
        assertThat(after.open()).isEqualTo(checked.open());
    }

    @Test
    void laterAcceptanceCounts() {
        Checked after = with(acceptance(one.key(), "It was otherwise."), acceptance(one.key(), one.said()));
        assertThat(after.accepted()).hasSize(1);
        assertThat(after.settled()).isEmpty();
    }

    @Test
    void comparisonTellsWhatAChangeDoes() {
        List<Finding> before = checked.all();
        List<Finding> after = new java.util.ArrayList<>(before);
        after.remove(one);
        Comparison c = Comparison.of(before, after);
        assertThat(c.cured()).containsExactly(one);
        assertThat(c.added()).isEmpty();
        assertThat(c.same()).hasSize(before.size() - 1);
        Comparison back = Comparison.of(after, before);
        assertThat(back.added()).containsExactly(one);
        assertThat(Comparison.of(before, before).same()).isEqualTo(before);
    }

    @Test
    void groupsHoldEveryFindingOnce() {
        for (Grouping by : Grouping.values()) {
            assertThat(by.of(house, checked.open()).values().stream().flatMap(List::stream))
                    .containsExactlyInAnyOrderElementsOf(checked.open());
        }
    }
}
