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
import org.splicebook.record.House;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** How long a full check of the sample house takes: by its rules alone, its wiring derived already, and with the derivation. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class CheckBench {
    private House house;
    private Wiring wiring;
    private Pack pack;

    /** Reads the house and derives its wiring. */
    @Setup
    public void read() {
        house = HouseFiles.read(Path.of("sample-house")).get();
        wiring = Derivation.derive(house);
        pack = Packs.of(house);
    }

    /** {@return what the rules find in a house whose wiring is derived} */
    @Benchmark
    public List<Finding> check() {
        return Checks.of(wiring, pack);
    }

    /** {@return what a check finds in a record} */
    @Benchmark
    public List<Finding> deriveAndCheck() {
        return Checks.of(house, pack);
    }
}
