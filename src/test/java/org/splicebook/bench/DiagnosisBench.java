package org.splicebook.bench;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
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
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.survey.Diagnosis;
import org.splicebook.survey.Observed;
import org.splicebook.survey.Symptom;

/** How long it takes to tell what explains symptoms in the sample house, every fault tried. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 5)
@Measurement(iterations = 5, time = 5)
public class DiagnosisBench {
    /** What is brought: one dead receptacle; that with readings and others that live. */
    @Param({"one dead", "readings"})
    public String brought = "";

    private LoadFlow flow;
    private List<Observed> symptoms;

    /** Makes the house. */
    @Setup
    public void makeHouse() {
        flow = LoadFlow.of(HouseFiles.read(Path.of("sample-house")).get());
        Symptom dead = new Symptom.Works("living-2.top", Symptom.Level.DEAD);
        symptoms = (brought.equals("one dead")
                        ? List.of(dead)
                        : List.of(
                                dead,
                                new Symptom.Reads("living-2.top", Symptom.Between.HOT_NEUTRAL, 20),
                                new Symptom.Reads("living-2.top", Symptom.Between.HOT_GROUND, 121),
                                new Symptom.Reads("living-2.top", Symptom.Between.NEUTRAL_GROUND, 110),
                                new Symptom.Works("living-1.top", Symptom.Level.LIVE)))
                .stream().map(Observed::usually).toList();
    }

    /** {@return the diagnosis} */
    @Benchmark
    public Diagnosis diagnosis() {
        return Diagnosis.of(flow, LoadCase.typical(), symptoms);
    }
}
