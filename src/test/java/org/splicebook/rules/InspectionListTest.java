package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class InspectionListTest {
    @Test
    void everyRuleOfTheListIsARule() {
        assertThat(Rules.ids()).containsAll(InspectionList.rules());
    }

    @Test
    void aFoundFaultIsToBePutRightAndNothingShownIsNotPassed() {
        InspectionList bath = list(Map.of("places.room.kind", "bathroom"));
        assertThat(item(bath, "Receptacles near water").state()).isEqualTo(InspectionList.State.PUT_RIGHT);
        assertThat(item(bath, "Outlets are live").state()).isEqualTo(InspectionList.State.NOTHING_SHOWN);
        assertThat(item(bath, "Outlets are live").look()).containsExactly("A lamp at each.");
        assertThat(bath.items()).flatExtracting(InspectionList.Item::look).allMatch(l -> l.endsWith("."));
        InspectionList living = list(Map.of());
        assertThat(item(living, "Receptacles near water").state()).isEqualTo(InspectionList.State.LOOK);
    }

    /** A receptacle for one large appliance is let off near water, though the code asks for protection in new work. */
    @Test
    void aReceptacleForALargeApplianceIsLetOff() {
        InspectionList range = list(Map.of("places.wash.kind", "kitchen", "boxes.d.devices.dry.load", "range"));
        assertThat(item(range, "Receptacles near water").findings())
                .noneMatch(f -> f.subject().equals("dry"));
        InspectionList none = list(Map.of("places.wash.kind", "kitchen", "boxes.d.devices.dry.load", "~"));
        assertThat(item(none, "Receptacles near water").findings())
                .anyMatch(f -> f.subject().equals("dry"));
    }

    private static InspectionList list(Map<String, Object> set) {
        return InspectionList.forRental(Checked.of(Cases.house("us", set), Packs.us(2023)));
    }

    private static InspectionList.Item item(InspectionList list, String title) {
        List<InspectionList.Item> all =
                list.items().stream().filter(i -> i.title().startsWith(title)).toList();
        assertThat(all).hasSize(1);
        return all.get(0);
    }
}
