package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.oracle.Hidden;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.rules.mutation.FaultyHouses;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ReliesOn;
import org.splicebook.wiring.ThingKind;

/** No device on which a neutral relies is passed over by the first look. */
class NeutralPassesTest {
    private int relied;
    private int passedOver;

    @Test
    void noDeviceThatANeutralReliesOnIsPassedOver() {
        for (int seed = 0; seed < 150; seed++) {
            House house = RandomHouses.house(seed, Shape.SMALL);
            look(house);
            look(Hidden.hide(house, seed, 0.4));
            look(FaultyHouses.of(seed).house());
        }
        look(HouseFiles.read(Path.of("sample-house")).get());
        assertThat(relied).as("devices that a neutral relies on").isGreaterThan(50);
        assertThat(passedOver).as("devices passed over").isGreaterThan(relied);
    }

    private void look(House house) {
        Facts f = Facts.of(Derivation.derive(house), new Remembered());
        for (Facts.InBox d : f.devices()) {
            boolean may = NeutralPasses.may(f, d);
            passedOver += may ? 0 : 1;
            for (LoadPointWiring l : f.points()) {
                for (ReliesOn r : l.reliesOn()) {
                    if (r.conductor() == Conductor.NEUTRAL
                            && r.thing().kind() == ThingKind.DEVICE
                            && r.thing().name().equals(d.name())) {
                        relied++;
                        assertThat(may).as(house.id() + ": " + d.name()).isTrue();
                    }
                }
            }
        }
    }
}
