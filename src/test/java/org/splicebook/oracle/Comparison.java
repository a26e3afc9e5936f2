package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.stream.Stream;
import org.splicebook.record.House;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** Lays the derivation and the oracle side by side over many houses, on every processor. */
public final class Comparison {
    private static final int SHOWN = 12;

    private Comparison() {}

    /** Every relation of complete houses is the same. */
    public static void equal(Stream<House> houses) {
        run(houses, h -> {
            Wiring derived = Derivation.derive(h);
            List<String> shorted = shorted(derived);
            return Facts.differences(Oracle.facts(h), Facts.of(derived)).stream()
                    .filter(d -> !isAboutSensors(d) || shorted.stream().noneMatch(d::contains))
                    .toList();
        });
    }

    /**
     * A load point one of whose terminals is hot and neutral at once, or two of whose terminals are on one pole, is a bolted short or
     * no load at all: whether its current passes a sensor on every way is not compared, since the derivation may claim less there.
     */
    private static List<String> shorted(Wiring w) {
        return w.loadPoints().stream()
                .filter(lp -> lp.feeds().stream()
                        .anyMatch(f -> lp.returns().stream()
                                        .anyMatch(r -> r.over() == Conductor.NEUTRAL
                                                && r.terminal().equals(f.terminal()))
                                || lp.feeds().stream()
                                        .anyMatch(g -> g.pole().equals(f.pole())
                                                && !g.terminal().equals(f.terminal()))))
                .map(lp -> " " + lp.id())
                .toList();
    }

    private static boolean isAboutSensors(String difference) {
        return difference.contains("_FAULT") || difference.contains("ACROSS_PROTECTION");
    }

    /** Fails with the first house that has something to say; a house too tangled to flood in every position is left out. */
    static void run(Stream<House> houses, Function<House, List<String>> check) {
        AtomicInteger all = new AtomicInteger();
        AtomicInteger tooMany = new AtomicInteger();
        String first = houses.parallel()
                .map(h -> {
                    all.incrementAndGet();
                    try {
                        return said(h, check.apply(h));
                    } catch (World.TooMany e) {
                        tooMany.incrementAndGet();
                        return "";
                    }
                })
                .filter(s -> !s.isEmpty())
                .findAny()
                .orElse("");
        assertThat(first).isEmpty();
        assertThat(tooMany.get())
                .as("houses left out as too tangled, of %d", all.get())
                .isLessThanOrEqualTo(all.get() / 10);
    }

    private static String said(House h, List<String> differences) {
        if (differences.isEmpty()) {
            return "";
        }
        return h.id() + ": " + differences.size() + " differences\n"
                + String.join("\n", differences.subList(0, Math.min(SHOWN, differences.size())));
    }
}
