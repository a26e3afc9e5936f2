package org.splicebook.property;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.record.Basis;
import org.splicebook.record.House;

class PropertyQuestionsTest {
    private static final String BED_OVER_NEXT_DOOR = Properties.text("unit-14b.yaml")
            .replace("      - [K2.white, bed-1.neutral]\n", "      - [K2.white]\n      - [K4.white, bed-1.neutral]\n")
            .replace(
                    "  K3: {kind: NM", "  K4: {kind: NM, wires: 14/2+ground, ends: [bed, party-wall]}\n  K3: {kind: NM")
            .replace("[K3.white, next-door.n]", "[K3.white, K4.white, next-door.n]");

    @Test
    void aReceptacleFedFromNextDoorIsOnTheNeighboursMeter() {
        Answer a = new Properties().ask("other-meters");
        assertThat(a.rows()).hasSize(1);
        Row row = a.rows().get(0);
        assertThat(row.subject()).isEqualTo("14b:hall-1");
        assertThat(row.status()).isEqualTo(Row.Status.SHOWN);
        assertThat(row.basis()).isEqualTo(Basis.TESTED);
        assertThat(row.columns()).containsEntry("meter", "m-14a (0118)").containsEntry("paid by", "14a (Ground floor)");
    }

    @Test
    void withoutAMeterOnTheWayItIsSaidThatNoneIsKnown() {
        Answer a = new Properties()
                .changed("  m-14b: {number: \"0119\", counts: 14b, in: 14b, source: riser}\n", "")
                .changed("  m-house: {number: \"0117\", counts: common, in: common, source: service}\n", "")
                .ask("other-meters");
        assertThat(a.notProven()).anyMatch(s -> s.contains("of 14b")).anyMatch(s -> s.contains("of common"));
    }

    @Test
    void aUnitWithoutAMeterOfItsOwnIsCountedByTheOneUpstream() {
        Answer a = new Properties()
                .changed("  m-14b: {number: \"0119\", counts: 14b, in: 14b, source: riser}\n", "")
                .ask("other-meters", "part", "14b");
        assertThat(a.rows())
                .filteredOn(r -> r.columns().get("paid by").equals("common (Cellar and stairs)"))
                .extracting(Row::subject)
                .containsExactly("14b:bed-1.bottom", "14b:bed-1.top", "14b:counter-gf");
    }

    @Test
    void aNeutralThatReturnsNextDoorIsAcrossUnits() {
        assertThat(new Properties().ask("neutrals-across").rows()).isEmpty();
        Answer a = new Properties().with(BED_OVER_NEXT_DOOR).ask("neutrals-across");
        assertThat(a.rows()).extracting(Row::subject).containsExactly("14b:bed-1.bottom", "14b:bed-1.top");
        assertThat(a.rows()).allSatisfy(r -> {
            assertThat(r.status()).isEqualTo(Row.Status.SHOWN);
            assertThat(r.columns())
                    .containsEntry("fed from", "common (riser)")
                    .containsEntry("returns over", "14a (next-door)");
        });
    }

    @Test
    void anUnrecordedOriginIsOnlyPossiblyAnother() {
        Answer a = new Properties()
                .with(BED_OVER_NEXT_DOOR)
                .changed("  - {from: 14a, point: to-14b, to: 14b, source: next-door, basis: tested}\n", "")
                .ask("neutrals-across");
        assertThat(a.rows()).hasSize(2).allMatch(r -> r.status() == Row.Status.POSSIBLE);
    }

    @Test
    void aUnitDiffersFromItsTypeWhereItsRecordDoes() {
        assertThat(new Properties().ask("against-type", "unit", "14a").rows()).isEmpty();
        Answer a = new Properties().ask("against-type", "unit", "14b");
        assertThat(a.rows())
                .extracting(Row::subject)
                .contains("source next-door", "box hall", "cable K3, end", "box party-wall, device to-14b");
        assertThat(a.notProven()).anyMatch(s -> s.contains("a type proves nothing"));
    }

    @Test
    void aCopyOfARecordIsAssumedWholeAndNothingInItExcludesAnything() {
        House pattern = HouseFiles.parse("a", Properties.text("unit-14a.yaml")).get();
        House copy = HouseFiles.parse("copy", HouseWriter.copy(pattern, "alder-row-14c", "14C"))
                .get();
        assertThat(copy.id()).isEqualTo("alder-row-14c");
        assertThat(copy.basis()).isEqualTo(Basis.ASSUMED);
        assertThat(copy.complete()).isEmpty();
        assertThat(copy.tests()).isEmpty();
        Answer a = new Properties()
                .with(HouseWriter.copy(pattern, "alder-row-14b", "14B"))
                .ask("against-type", "unit", "14b");
        assertThat(a.rows()).isEmpty();
        assertThat(a.notProven()).anyMatch(s -> s.contains("3 boxes of it, which are assumed"));
    }
}
