package org.splicebook.oracle;

import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.stream.LongStream;
import org.splicebook.record.Sighting;
import org.splicebook.record.Sighting.Lit;
import org.splicebook.record.Sighting.Reading;
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.Target;

/** In how many of some half-known houses a shut-off misses something when one reading in fifty is wrong. Made by name in a class loader of its own. */
public final class FlippedMisses implements Callable<String> {
    private static final long HOUSES = Long.getLong("splicebook.houses", 2_000);
    private static final double WRONG = 0.02;

    @Override
    public String call() {
        List<Boolean> missed = LongStream.range(0, 8 * HOUSES)
                .filter(HalfKnown::isLandingsHidden)
                .parallel()
                .mapToObj(FlippedMisses::misses)
                .toList();
        return missed.stream().filter(m -> m).count() + " of " + missed.size();
    }

    private static boolean misses(long seed) {
        HalfKnown h = HalfKnown.of(seed);
        Random random = new Random(seed * 7 + 3);
        List<Sighting> seen =
                h.sightings().stream().map(s -> flipped(s, random)).toList();
        HalfKnown wrong = new HalfKnown(h.truth(), h.record(), h.box(), seen, h.hazard());
        ShutOff s = ShutOff.of(wrong.record(), seen, Target.box(wrong.box()));
        return !ShutOffMissesTest.misses(seed, wrong, s).isEmpty();
    }

    private static Sighting flipped(Sighting s, Random random) {
        if (random.nextDouble() >= WRONG || !(s.seen() instanceof Lit l)) {
            return s;
        }
        Lit other = new Lit(l.at(), l.before(), l.read() == Reading.LIT ? Reading.NOT_LIT : Reading.LIT, l.after());
        return new Sighting(
                s.id(), s.date(), s.withOff(), s.levers(), s.instrument(), s.pass(), s.by(), other, s.note());
    }
}
