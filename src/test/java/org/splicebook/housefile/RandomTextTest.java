package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.splicebook.oracle.Hidden;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;

/** Random houses survive the way out and back; random damage to a file is told and never breaks the reader. */
class RandomTextTest {
    private static final int HOUSES = 80;
    private static final int DAMAGES = 600;

    @Test
    void randomHousesAreTheSameAfterWritingAndReading() {
        for (long seed = 0; seed < HOUSES; seed++) {
            House house = withStandardKinds(RandomHouses.house(seed, Shape.of(seed)));
            House some = withStandardKinds(Hidden.hide(house, seed, 0.3));
            for (House h : new House[] {house, some}) {
                Result<House> read = HouseFiles.parse("written", HouseWriter.write(h));
                assertThat(read.problems()).as("seed %d", seed).isEmpty();
                assertThat(read.get()).as("seed %d", seed).isEqualTo(h);
            }
        }
    }

    @Test
    void damageToAFileIsToldAndNeverBreaksTheReader() {
        String whole = Fixtures.text("everything.yaml");
        String signs = "{}[]:,-\"'#&*!|>?@. \n\t0aZ+\u00e9\u202e";
        for (long seed = 0; seed < DAMAGES; seed++) {
            Random random = new Random(seed);
            StringBuilder text = new StringBuilder(whole);
            for (int i = 1 + random.nextInt(3); i > 0; i--) {
                int at = random.nextInt(text.length());
                switch (random.nextInt(3)) {
                    case 0 -> text.setCharAt(at, signs.charAt(random.nextInt(signs.length())));
                    case 1 -> text.insert(at, signs.charAt(random.nextInt(signs.length())));
                    default -> text.delete(at, Math.min(text.length(), at + 1 + random.nextInt(20)));
                }
            }
            Result<House> read = HouseFiles.parse("f", text.toString());
            assertThat(read.isOk() || !read.problems().isEmpty())
                    .as("seed %d", seed)
                    .isTrue();
            if (read.isOk()) {
                assertThat(HouseFiles.parse("f", HouseWriter.write(read.get())).get())
                        .as("seed %d", seed)
                        .isEqualTo(read.get());
            }
        }
    }

    /** The houses of the oracle have devices of kinds of their own; a file names kinds by their word. */
    private static House withStandardKinds(House h) {
        Map<String, Box> boxes = new LinkedHashMap<>();
        h.boxes().forEach((name, b) -> {
            Map<String, Device> devices = new LinkedHashMap<>();
            b.devices()
                    .forEach((key, d) -> devices.put(
                            key,
                            new Device(
                                    key,
                                    Kinds.standard().getOrDefault(d.kind().name(), d.kind()),
                                    d.rating(),
                                    d.tabs(),
                                    d.unused(),
                                    d.load(),
                                    d.watts(),
                                    d.label(),
                                    d.canopy(),
                                    d.about())));
            boxes.put(
                    name,
                    new Box(
                            name,
                            b.place(),
                            b.shell(),
                            b.cableEntries(),
                            b.hidden(),
                            devices,
                            b.joints(),
                            b.complete(),
                            b.about()));
        });
        return h.withParts(h.panels(), h.cables(), boxes);
    }
}
