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
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.Branch;
import org.splicebook.loadflow.Fault;
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Solution;

/** How long ten thousand scenarios of the sample house take: another load, another connection open in each. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 1)
@Measurement(iterations = 3)
public class ScenariosBench {
    private static final int SCENARIOS = 10_000;

    private LoadFlow flow;
    private List<String> connections = List.of();

    /** Reads the house. */
    @Setup
    public void readHouse() {
        flow = LoadFlow.of(HouseFiles.read(Path.of("sample-house")).get());
        connections = flow.circuit().branches().stream()
                .filter(b -> b.kind() == Branch.Kind.ARM)
                .map(Branch::name)
                .toList();
    }

    /** {@return the sum of the highest voltages, so that nothing is left out} */
    @Benchmark
    public double tenThousand() {
        double sum = 0;
        for (int i = 0; i < SCENARIOS; i++) {
            Solution s = flow.solve(LoadCase.typical()
                            .load("heater", Load.watts(1000 + i))
                            .fault(new Fault.Open(connections.get(i % connections.size()))))
                    .get();
            double highest = 0;
            for (Solution.AtPoint p : s.points()) {
                highest = Math.max(
                        highest,
                        p.across().get(0).floats() ? 0 : p.across().get(0).magnitude());
            }
            sum += highest;
        }
        return sum;
    }
}
