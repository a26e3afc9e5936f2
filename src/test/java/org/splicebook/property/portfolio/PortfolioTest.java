package org.splicebook.property.portfolio;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.wiring.CrossingKind;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

class PortfolioTest {
    private static final Portfolio SOME = new Portfolio(1, 63);

    private static List<Wiring> wirings() {
        return IntStream.range(0, SOME.houses())
                .mapToObj(i -> Derivation.derive(SOME.house(i)))
                .toList();
    }

    @Test
    void apartmentsAreWiredAndVaried() {
        List<Wiring> units = wirings().stream()
                .filter(w -> !w.house().id().endsWith("-common"))
                .toList();
        assertThat(units).hasSize(63);
        IntSummaryStatistics points =
                units.stream().mapToInt(w -> w.loadPoints().size()).summaryStatistics();
        assertThat(points.getAverage()).isBetween(36.0, 46.0);
        assertThat(points.getMin()).isLessThan(points.getMax());
        for (Wiring w : units) {
            assertThat(w.loadPoints())
                    .as(w.house().id())
                    .allMatch(l -> !l.feeds().isEmpty());
        }
        assertThat(units).anyMatch(w -> w.crossings().stream().anyMatch(c -> c.kind() == CrossingKind.BORROWED));
        assertThat(units).anyMatch(w -> !w.openRegions().isEmpty());
        assertThat(units)
                .anyMatch(w -> w.loadPoints().stream()
                        .noneMatch(l -> l.grounds().isEmpty()
                                && l.feeds().stream().allMatch(f -> f.sureness() == Sureness.MUST)));
    }

    @Test
    void theSameSeedGivesTheSameAndAnotherGivesAnother() {
        House one = SOME.house(7);
        assertThat(new Portfolio(1, 5000).house(7)).isEqualTo(one);
        assertThat(new Portfolio(2, 63).house(7)).isNotEqualTo(one);
    }

    @Test
    void everyHouseOfAPropertyIsMade() {
        Portfolio portfolio = new Portfolio(1, 130);
        List<String> ids = portfolio.ids().toList();
        assertThat(ids).doesNotHaveDuplicates().hasSize(137);
        Set<String> named = new HashSet<>();
        for (int p = 0; p < portfolio.properties(); p++) {
            Property property = portfolio.property(p);
            property.parts().values().forEach(part -> named.add(part.house()));
        }
        assertThat(named).containsExactlyInAnyOrderElementsOf(ids);
        for (int i = 0; i < ids.size(); i += 17) {
            assertThat(portfolio.house(i).id()).isEqualTo(ids.get(i));
        }
    }
}
