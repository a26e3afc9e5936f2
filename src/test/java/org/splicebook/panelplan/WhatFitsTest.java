package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.panelplan.Demand.Method;
import org.splicebook.panelplan.Demand.Verdict;
import org.splicebook.panelplan.DemandLoad.Kind;

/** What is said to fit does, and a little more does not. */
class WhatFitsTest {
    private static DemandLoad load(String name, Kind kind, double va, boolean isNew) {
        return new DemandLoad(name, kind, va, isNew, RecordedDwelling.isMotor(kind), false, null);
    }

    /** 1,400 square feet on 100 A. */
    private static final Dwelling SMALL = new Dwelling(
            1400.0,
            2,
            1,
            List.of(
                    load("dishwasher", Kind.APPLIANCE, 1200, false),
                    load("water heater", Kind.APPLIANCE, 4500, false),
                    load("dryer", Kind.DRYER, 5000, false)),
            Dwelling.SPLIT_PHASE,
            100.0,
            List.of());

    private static DemandStudy study(Dwelling d, Method method, int edition) {
        return DemandStudy.of(
                d, new DemandStudy.Wanted(List.of(method), List.of(edition), edition, Metering.of(8400), 0));
    }

    private static boolean fits(Dwelling d, Method method, int edition) {
        List<Demand> made = switch (method) {
            case STANDARD -> List.of(Demands.standard(d, edition));
            case OPTIONAL -> List.of(Demands.optional(d, edition));
            case EXISTING -> Demands.existing(d, edition);
            default -> Demands.metered(d, Metering.of(8400), edition);
        };
        return made.stream()
                        .max(Comparator.comparingDouble(Demand::amps))
                        .orElseThrow()
                        .verdict()
                == Verdict.FITS;
    }

    @ParameterizedTest
    @CsvSource({
        "STANDARD,2020",
        "STANDARD,2023",
        "STANDARD,2026",
        "OPTIONAL,2023",
        "OPTIONAL,2026",
        "EXISTING,2023",
        "METERED,2023"
    })
    void largestIsWhatTryingOneByOneFinds(Method method, int edition) {
        for (WhatFits.Fit fit : study(SMALL, method, edition).fits()) {
            double largest = 0;
            double step = 20;
            double to = fit.kind() == Kind.RANGE ? 27000 : 100000;
            for (double va = fit.kind() == Kind.RANGE ? 1760 : step; va <= to; va += step) {
                if (fits(SMALL.with(load("x", fit.kind(), va, true)), method, edition)) {
                    largest = va;
                }
            }
            assertThat(fit.va()).as("%s %s %d", fit.kind(), method, edition).isCloseTo(largest, within(step));
            assertThat(fit.isAtMost()).isFalse();
        }
    }

    @Test
    void chargerThatIsTooMuchIsHeldSoThatItFits() {
        Dwelling d = SMALL.with(load("heat pump", Kind.HEAT_PUMP, 5760, true))
                .with(load("strips", Kind.STRIP_HEAT, 5000, true))
                .with(load("charger", Kind.VEHICLE, 7680, true));
        DemandStudy study = study(d, Method.EXISTING, 2023);
        assertThat(study.cures()).extracting(WhatFits.Cure::said).anyMatch(s -> s.contains("to 8 A at most"));
        // 24 A was found too much by hand, no charger at all fits; without strips the whole of it does.
        assertThat(study.cures())
                .anyMatch(c -> c.said().startsWith("No strip heat")
                        && c.amps() != null
                        && Math.abs(c.amps() - 89.133) < 0.001);
        assertThat(study.cures().get(study.cures().size() - 1).said()).isEqualTo("A service of 110 A.");
        for (WhatFits.Cure cure : study.cures()) {
            assertThat(cure.amps() == null || cure.amps() < 100.5)
                    .as(cure.said())
                    .isTrue();
        }
    }

    @Test
    void whileSomethingIsAskedItIsNoMoreThan() {
        Dwelling asked = new Dwelling(1400.0, 2, 1, SMALL.loads(), 240, 100.0, List.of("range?"), true, List.of());
        assertThat(study(asked, Method.OPTIONAL, 2023).fits()).allMatch(WhatFits.Fit::isAtMost);
        Dwelling without = new Dwelling(1400.0, 2, 1, SMALL.loads(), 240, null, List.of());
        assertThat(study(without, Method.OPTIONAL, 2023).fits()).isEmpty();
    }
}
