package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.House;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.Derivation;

/** Small houses whose best change was found by hand: {@code puzzles.csv} tells it, and why. */
class PuzzlesTest {
    private static final Pack PACK = Packs.us(Packs.USUAL_EDITION);

    @ParameterizedTest
    @CsvFileSource(
            resources = "/org/splicebook/rewire/puzzles/puzzles.csv",
            delimiter = '|',
            useHeadersInDisplayName = true)
    void theBestIsFirst(String file, String wanted, String cost, String steps, String why) throws IOException {
        House house = read(file);
        Found found = Search.of(house, PACK, wish(house, wanted), Kinds.standard(), 2000, looked -> true)
                .get();
        if (cost.equals("none")) {
            assertThat(found.proposals()).as(why).isEmpty();
            return;
        }
        assertThat(found.proposals())
                .as("%s, rejected: %s", why, found.rejected())
                .isNotEmpty();
        Proposal best = found.proposals().get(0);
        assertThat(best.cost().said() + " / " + String.join(" ", best.steps()))
                .as(why)
                .isEqualTo(cost + " / " + steps);
        for (Proposal p : found.proposals()) {
            House after = Moves.apply(house, p.moves()).get();
            if (!wanted.contains("=")) {
                assertThat(Checks.of(after, PACK)).extracting(Finding::key).doesNotContain(finding(house, wanted));
            }
        }
    }

    /** Two poles of one breaker would hide the loop from the checks; the joint must be parted. */
    @Test
    void aLoopOfNeutralsIsParted() throws IOException {
        House house = read("golden/neutral-islands-joined");
        Found found = Search.of(house, PACK, wish(house, "neutrals-joined"), Kinds.standard(), 2000, looked -> true)
                .get();
        assertThat(found.proposals()).isNotEmpty();
        for (Proposal p : found.proposals()) {
            assertThat(Derivation.derive(Moves.apply(house, p.moves()).get()).islands())
                    .as("%s", p.steps())
                    .noneMatch(i -> i.landings().size() > 1 && i.poles().size() > 1);
        }
    }

    private static Wish wish(House house, String wanted) {
        return wanted.contains("=") ? Wish.parse(wanted).get() : new Wish.Cure(finding(house, wanted));
    }

    private static String finding(House house, String rule) {
        return Checks.of(house, PACK).stream()
                .filter(f -> f.rule().equals(rule) || f.key().equals(rule))
                .map(Finding::key)
                .findFirst()
                .orElseThrow();
    }

    private static House read(String file) throws IOException {
        String path = "/org/splicebook/" + file + ".house.yaml";
        try (InputStream in = Objects.requireNonNull(PuzzlesTest.class.getResourceAsStream(path), path)) {
            return HouseFiles.parse(path, new String(in.readAllBytes(), StandardCharsets.UTF_8))
                    .get();
        }
    }
}
