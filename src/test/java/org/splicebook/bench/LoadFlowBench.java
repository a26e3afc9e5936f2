package org.splicebook.bench;

import java.nio.file.Path;
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
import org.splicebook.loadflow.Load;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Solution;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;

/** How long it takes to solve a house, first and again, and how that grows with the number of wires. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class LoadFlowBench {
    /** The sample house, or a random house of about so many wires. */
    @Param({"sample-house", "200", "2000", "20000"})
    public String wires = "";

    private House house;
    private LoadFlow flow;
    private String point = "";
    private int turn;

    /** Makes the house. */
    @Setup
    public void makeHouse() {
        int n = wires.equals("sample-house") ? 0 : Integer.parseInt(wires);
        house = n == 0
                ? HouseFiles.read(Path.of("sample-house")).get()
                : RandomHouses.house(9, new Shape(n / 10, n / 3, n / 80));
        flow = LoadFlow.of(house);
        point = flow.circuit().loadPoints().get(0).name();
        int recorded =
                house.cables().values().stream().mapToInt(c -> c.wires().size()).sum();
        System.out.printf(
                "# %d wires, %d nodes, %d branches%n",
                recorded,
                flow.circuit().nodes().size(),
                flow.circuit().branches().size());
    }

    /** {@return the record's first solution, circuit and order of elimination made anew} */
    @Benchmark
    public Solution first() {
        return LoadFlow.of(house).solve(LoadCase.typical()).get();
    }

    /** {@return a solution with another load, all else known} */
    @Benchmark
    public Solution again() {
        turn = (turn + 1) % 1000;
        return flow.solve(LoadCase.typical().load(point, Load.watts(turn))).get();
    }
}
