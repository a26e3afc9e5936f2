package org.splicebook.oracle;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;
import org.splicebook.record.Wire;

/** Gives the cables of a random house lengths, sizes and materials, so that currents can be computed. */
public final class Measured {
    private static final List<String> SIZES = List.of("14", "12", "10", "8", "6");

    private Measured() {}

    /** {@return the house with every cable 0.5 to 30 m long, of a size of its own, one in eight of aluminium; the same for the same seed} */
    public static House house(House house, long seed) {
        Random random = new Random(seed * 104729 + 3);
        Map<String, Cable> cables = new LinkedHashMap<>();
        for (Cable c : house.cables().values()) {
            String size = SIZES.get(random.nextInt(SIZES.size()));
            boolean aluminium = random.nextInt(8) == 0;
            List<Wire> wires = c.wires().stream()
                    .map(w -> w.metal()
                            ? w
                            : new Wire(
                                    w.name(),
                                    w.colour(),
                                    size,
                                    aluminium ? Wire.Material.ALUMINIUM : Wire.Material.COPPER,
                                    false))
                    .toList();
            Quantity length = new Quantity(BigDecimal.valueOf(50 + random.nextInt(2951), 2), Unit.METRE);
            cables.put(
                    c.name(),
                    new Cable(c.name(), c.kind(), c.shorthand(), wires, c.ends(), c.through(), length, c.about()));
        }
        return house.withParts(house.panels(), cables, house.boxes());
    }
}
