package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;

/** The complete example of the house file. */
class ExampleHouseTest {
    private final House house = Fixtures.house("alder-row.yaml");

    @Test
    void everyPartOfTheExampleIsRead() {
        assertThat(house.said()).isEqualTo("14 Alder Row, rear flat");
        assertThat(house.panels().get("main").breakers().keySet()).containsExactly("1", "3", "2+4", "6", "8");
        assertThat(house.panels().get("main").breakers().get("8").neutralTerminal())
                .isTrue();
        assertThat(house.cables()).hasSize(8);
        assertThat(house.boxes()).hasSize(7);
        assertThat(house.sightings()).hasSize(5);
        assertThat(house.tests()).hasSize(1);
    }

    @Test
    void oneOfSeveralBoxesIsKeptAsSuch() {
        assertThat(house.cables().get("K6").ends())
                .containsExactly(
                        new CableEnd.At("stair-head"), new CableEnd.OneOf(List.of("bath-vanity", "bedroom-door")));
    }

    @Test
    void plainNeutralMeansTheTopHalfAndSaysThatTheTabIsIn() {
        var joint = house.boxes().get("bench").joints().get(2);
        assertThat(joint.hold()).isEqualTo(Joint.Hold.TAIL);
        assertThat(joint.holders()).containsExactly(new Ref.DeviceTerminal("bench-1", "top.neutral"));
        assertThat(joint.members()).endsWith(new Ref.DeviceTerminal("bench-1", "top.neutral"));
        assertThat(house.boxes().get("bench").devices().get("bench-1").tabs())
                .containsEntry("hot", false)
                .containsEntry("neutral", true);
    }

    @Test
    void wiresWithoutALookAtTheirEndAreInNoJoint() {
        assertThat(house.boxes().get("bench").joints())
                .noneMatch(j -> j.members().contains(new Ref.WireEnd("K4", "b", 0, false)));
    }
}
