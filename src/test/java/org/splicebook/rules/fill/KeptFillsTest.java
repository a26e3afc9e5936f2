package org.splicebook.rules.fill;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Wire;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** A box that is the same one is counted anew when what is around it is not. */
class KeptFillsTest {
    private static final int EDITION = 2023;

    private final House sample = HouseFiles.read(Path.of("sample-house")).get();
    private final KeptFills kept = new KeptFills();

    @Test
    void thickerWiresAreCounted() {
        counted(sample);
        assertThat(counted(withWires(w -> new Wire(w.name(), w.colour(), "6", w.material(), w.metal()))))
                .isNotEqualTo(counted(sample));
    }

    @Test
    void wiresThatAreGroundsNoMoreAreCountedAsOthers() {
        House alike = withWires(w -> new Wire(w.name(), "red", w.size(), w.material(), w.metal()));
        Map<String, Panel> panels = new LinkedHashMap<>();
        alike.panels().forEach((name, p) -> panels.put(name, p.withJoints(List.of(), p.complete())));
        List<BoxFill> landed = counted(alike);
        assertThat(counted(alike.withParts(panels, alike.cables(), alike.boxes())))
                .isNotEqualTo(landed);
    }

    @Test
    void anotherEditionCountsOtherwise() {
        Wiring wiring = Derivation.derive(sample);
        kept.verdicts(wiring, EDITION);
        assertThat(kept.verdicts(wiring, 2014)).isEqualTo(new KeptFills().verdicts(wiring, 2014));
    }

    private House withWires(UnaryOperator<Wire> other) {
        Map<String, Cable> cables = new LinkedHashMap<>();
        sample.cables()
                .forEach((name, c) -> cables.put(
                        name,
                        new Cable(
                                name,
                                c.kind(),
                                c.shorthand(),
                                c.wires().stream().map(other).toList(),
                                c.ends(),
                                c.through(),
                                c.loops(),
                                c.length(),
                                c.about())));
        return sample.withParts(sample.panels(), cables, sample.boxes());
    }

    /** What is told with what was kept, held to what is told without. */
    private List<BoxFill> counted(House house) {
        Wiring wiring = Derivation.derive(house);
        List<BoxFill> all = kept.verdicts(wiring, EDITION);
        assertThat(all).isEqualTo(new KeptFills().verdicts(wiring, EDITION));
        return all;
    }
}
