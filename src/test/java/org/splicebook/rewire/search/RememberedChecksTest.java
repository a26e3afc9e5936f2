package org.splicebook.rewire.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.rewire.Moves;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.rules.Remembered;
import org.splicebook.rules.mutation.FaultyHouses;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** What was found out of houses before changes nothing of what is found in one. */
class RememberedChecksTest {
    private static final Pack PACK = Packs.us(2023);

    @Test
    void checksTellTheSameWithWhatOtherHousesLeft() {
        int made = compare(HouseFiles.read(Path.of("sample-house")).get(), 25);
        for (int seed = 0; seed < 10; seed++) {
            made += compare(FaultyHouses.of(seed).house(), 25);
        }
        assertThat(made).isGreaterThan(100);
    }

    private static int compare(House house, int many) {
        Remembered remembered = new Remembered();
        List<List<Move>> atoms = AllAtoms.of(State.of(house, PACK));
        Random random = new Random(many);
        int made = 0;
        for (int i = 0; i < many && !atoms.isEmpty(); i++) {
            Result<House> after = Moves.apply(house, atoms.get(random.nextInt(atoms.size())));
            if (after.isOk()) {
                Wiring wiring = Derivation.derive(after.get());
                assertThat(Checks.of(wiring, PACK, remembered)).isEqualTo(Checks.of(wiring, PACK));
                made++;
            }
        }
        return made;
    }
}
