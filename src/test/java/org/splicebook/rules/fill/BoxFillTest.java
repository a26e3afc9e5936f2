package org.splicebook.rules.fill;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.rules.fill.BoxFill.Fits;
import org.splicebook.rules.fill.BoxFill.Verdict;
import org.splicebook.wiring.Derivation;

/** The worked boxes, and what is not known of a box. */
class BoxFillTest {
    private static final Path BOXES = Path.of("src/test/resources/org/splicebook/rules/fill/boxes.yaml");

    @ParameterizedTest
    @CsvSource({
        "bf1, 2014, 18.00, 18.00, FITS",
        "bf1, 2017, 18.00, 18.00, FITS",
        "bf1, 2023, 18.00, 18.00, FITS",
        "bf2, 2017, 18.00, 18.00, FITS",
        "bf2, 2020, 18.00, 18.00, FITS",
        "bf3, 2017, 22.00, 21.00, TOO_FULL",
        "bf3, 2020, 22.50, 21.00, TOO_FULL",
        "bf3, 2026, 22.50, 21.00, TOO_FULL",
        "bf4, 2017, 29.25, 34.00, FITS",
        "bf4, 2023, 29.25, 34.00, FITS",
        "bf5, 2014, 30.00, 36.30, FITS",
        "bf5, 2020, 31.00, 36.30, FITS",
        "bf6, 2017, 20.00, 20.00, FITS",
        "bf6, 2023, 20.00, 20.00, FITS",
        "six-tens, 2017, 32.50, 42.00, FITS",
        "six-tens, 2020, 33.75, 42.00, FITS",
        "blocks, 2020, 11.25, 21.00, FITS",
        "blocks, 2023, 13.50, 21.00, FITS",
        "lamp, 2023, 14.00, 15.50, FITS",
        "loop, 2023, 9.00, 12.50, FITS",
        "ganged, 2023, 27.00, 28.00, FITS",
        "barred, 2023, 10.00, 29.30, FITS",
        "dryer-240, 2023, 17.50, 20.00, FITS",
        "armoured, 2023, 10.00, 12.50, FITS"
    })
    void aBoxCounts(String box, int edition, double used, double capacity, Verdict verdict) {
        BoxFill fill = fill(box, edition);
        assertThat(fill.notKnown()).isEmpty();
        assertThat(fill.used().isExact()).isTrue();
        assertThat(fill.used().least()).isEqualTo(used, within());
        assertThat(fill.capacity()).isEqualTo(Room.of(capacity));
        assertThat(fill.verdict()).isEqualTo(verdict);
    }

    @Test
    void eachItemIsToldWithItsArticle() {
        assertThat(fill("bf1", 2023).items())
                .extracting(FillItem::article)
                .containsExactly("314.16(B)(1)", "314.16(B)(2)", "314.16(B)(4)", "314.16(B)(5)");
        assertThat(fill("bf1", 2023).items()).extracting(i -> i.room().least()).containsExactly(9.0, 2.25, 4.5, 2.25);
    }

    @Test
    void whatIsOverIsToldWithTheRingThatCuresIt() {
        BoxFill fill = fill("bf3", 2023);
        assertThat(fill.said()).isEqualTo("bf3 is too full: 22.50 in3 in a box of 21.00 in3, 1.50 in3 over.");
        assertThat(fill.cures().get(0)).contains("1.50 in3 or more", "4 x 1 1/4 in square adds 18.00");
        assertThat(fill.cures().get(1)).contains("4 x 2 1/8 in square (30.30)");
    }

    @Test
    void whatWouldStillFitIsTold() {
        BoxFill fill = fill("bf4", 2023); // 4.75 left; a 12/2 takes 4.50 and its ground is the fourth
        assertThat(fits(fill, "a 12/2 cable with ground")).isEqualTo(Fits.YES);
        assertThat(fits(fill, "a 12/3 cable with ground")).isEqualTo(Fits.NO);
        assertThat(fits(fill, "one more device on 12 AWG")).isEqualTo(Fits.YES);
        assertThat(fits(fill("bf1", 2023), "one wire of 14 AWG")).isEqualTo(Fits.NO);
    }

    @ParameterizedTest
    @CsvSource({
        "open, MAY_BE_TOO_FULL, more cables enter",
        "open-and-full, TOO_FULL, more cables enter",
        "no-size, MAY_BE_TOO_FULL, The size of U1.a",
        "no-volume, VOLUME_NOT_KNOWN, The volume of the box",
        "no-clamps, MAY_BE_TOO_FULL, clamps inside",
        "no-canopy, MAY_BE_TOO_FULL, What canopy",
        "maybe-here, MAY_BE_TOO_FULL, Whether M1 ends in this box",
        "passing, MAY_BE_TOO_FULL, Whether L2",
        "no-gangs, MAY_BE_TOO_FULL, How many gangs",
        "no-rating, MAY_BE_TOO_FULL, The rating of nr-1",
        "big, PULL_BOX, not in the table"
    })
    void whatIsNotKnownIsSaidAndNeverTakenToFit(String box, Verdict verdict, String said) {
        BoxFill fill = fill(box, 2023);
        assertThat(fill.verdict()).isEqualTo(verdict);
        assertThat(fill.notKnown()).anyMatch(s -> s.contains(said));
        assertThat(fill.extras()).noneMatch(e -> e.answer() == Fits.YES);
    }

    @Test
    void jointsInTheOpenAirAreNoBox() {
        assertThat(fill("air", 2023).verdict()).isEqualTo(Verdict.NO_BOX);
        assertThat(BoxFills.of(Derivation.derive(house()), 2023))
                .noneMatch(f -> f.box().equals("air"));
    }

    @Test
    void aWhiteWireThatGroundsIsCountedAsAGround() {
        assertThat(fill("white-ground", 2023).items())
                .anySatisfy(i -> assertThat(i.about()).containsExactly("G1.white"));
    }

    private static Fits fits(BoxFill fill, String what) {
        return fill.extras().stream()
                .filter(e -> e.say().equals(what))
                .findFirst()
                .orElseThrow()
                .answer();
    }

    private static org.assertj.core.data.Offset<Double> within() {
        return org.assertj.core.data.Offset.offset(1e-9);
    }

    private static BoxFill fill(String box, int edition) {
        House house = house();
        return BoxFills.of(
                Derivation.derive(house),
                java.util.Objects.requireNonNull(house.boxes().get(box)),
                edition);
    }

    private static House house() {
        try {
            return HouseFiles.parse("boxes.yaml", Files.readString(BOXES)).get();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
