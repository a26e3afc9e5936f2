package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;

class RandomHousesTest {
    @Test
    void sameSeedGivesSameHouse() {
        assertThat(RandomHouses.house(7, Shape.MIDDLE)).isEqualTo(RandomHouses.house(7, Shape.MIDDLE));
    }

    @Test
    void everyWireEndIsInOneJointAtMost() {
        for (long seed = 0; seed < 200; seed++) {
            House h = RandomHouses.house(seed, Shape.of(seed));
            Set<Ref> seen = new HashSet<>();
            for (Box b : h.boxes().values()) {
                for (Joint j : b.joints()) {
                    assertOnce(j, seen, h.id());
                }
            }
            for (Panel p : h.panels().values()) {
                for (Joint j : p.joints()) {
                    assertOnce(j, seen, h.id());
                }
            }
        }
    }

    @Test
    void theyHoldEveryKindOfDeviceAndSupply() {
        Set<String> kinds = new HashSet<>();
        boolean split = false;
        boolean generator = false;
        boolean bonded = false;
        for (long seed = 0; seed < 200; seed++) {
            House h = RandomHouses.house(seed, Shape.of(seed));
            h.boxes()
                    .values()
                    .forEach(
                            b -> b.devices().values().stream().map(Device::kind).forEach(k -> kinds.add(k.name())));
            split |= h.panels().values().stream().anyMatch(p -> !p.buses().isEmpty());
            bonded |= h.panels().values().stream().anyMatch(Panel::bonded);
            generator |= h.sources().containsKey("gen");
        }
        assertThat(kinds)
                .contains(
                        "three-way-switch",
                        "four-way-switch",
                        "ground-fault-receptacle",
                        "dead-front",
                        "disconnect-2",
                        "appliance-120-240",
                        "smart-switch",
                        "switch-and-receptacle",
                        "transformer");
        assertThat(split && generator && bonded).isTrue();
    }

    @Test
    void hidingNeverAddsAFact() {
        for (long seed = 0; seed < 100; seed++) {
            House whole = RandomHouses.house(seed, Shape.SMALL);
            House partial = Hidden.hide(whole, seed, 0.3);
            for (Box b : partial.boxes().values()) {
                for (Joint j : b.joints()) {
                    assertThat(whole.boxes().get(b.name()).joints())
                            .as("seed %d box %s", seed, b.name())
                            .anyMatch(k -> k.members().containsAll(j.members()));
                }
            }
        }
    }

    private static void assertOnce(Joint j, Set<Ref> seen, String id) {
        for (Ref r : j.members()) {
            if (r instanceof Ref.WireEnd || r instanceof Ref.DeviceTerminal) {
                assertThat(seen.add(r)).as("%s: %s twice", id, r.said()).isTrue();
            }
        }
    }
}
