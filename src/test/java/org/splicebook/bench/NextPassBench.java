package org.splicebook.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.splicebook.survey.passes.Chances;
import org.splicebook.survey.passes.Costs;
import org.splicebook.survey.passes.NextPass;
import org.splicebook.survey.passes.Pass;
import org.splicebook.survey.passes.Plans;
import org.splicebook.survey.passes.Point;
import org.splicebook.survey.passes.Posterior;
import org.splicebook.survey.passes.Reading;
import org.splicebook.survey.passes.Survey;
import org.splicebook.survey.passes.Throw;

/** How long it takes to choose the next pass of a survey, and to learn from those before. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class NextPassBench {
    /** Passes walked before. */
    @Param({"0", "3", "6"})
    public int walked;

    private Survey survey;
    private List<Pass> passes;
    private List<Reading> readings;
    private Posterior known;

    /** Makes a house of 42 breakers and 300 points, each on one breaker, walked as coded so far. */
    @Setup
    public void makeSurvey() {
        List<Throw> throwing = IntStream.rangeClosed(1, 42)
                .mapToObj(i -> Throw.free("main." + i))
                .toList();
        List<Point> points = IntStream.range(0, 300)
                .mapToObj(i -> new Point("point-" + i, "room-" + i / 9, "device-" + i))
                .toList();
        survey = Survey.plain(throwing, points, Chances.OLD_HOUSE);
        passes = Plans.coded(survey, 1).subList(0, walked);
        Random random = new Random(3);
        readings = new ArrayList<>();
        for (int p = 0; p < points.size(); p++) {
            int feed = random.nextInt(throwing.size());
            for (int k = 0; k < walked; k++) {
                readings.add(new Reading(p, k, passes.get(k).off().get(feed)));
            }
        }
        known = Posterior.of(survey, passes, readings);
    }

    /** {@return the next pass, what is known being known} */
    @Benchmark
    public Optional<NextPass.Chosen> choice() {
        return NextPass.choose(known, Costs.ON_FOOT, 0.99);
    }

    /** {@return what the readings make likely} */
    @Benchmark
    public Posterior posterior() {
        return Posterior.of(survey, passes, readings);
    }
}
