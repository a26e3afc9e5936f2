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
import org.splicebook.wiring.shutoff.ShutOff;
import org.splicebook.wiring.shutoff.ShutOffs;
import org.splicebook.wiring.shutoff.Target;

/** How long a shut-off of the sample house takes: made ready with its sightings, and asked for box after box. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class ShutOffBench {
    private House house;
    private ShutOffs ready;
    private List<String> boxes;
    private int next;

    /** Reads the house. */
    @Setup
    public void read() {
        house = HouseFiles.read(Path.of("sample-house")).get();
        ready = ShutOffs.of(house, house.sightings());
        boxes = List.copyOf(house.boxes().keySet());
    }

    /** {@return what is kept ready of a house until it changes} */
    @Benchmark
    public ShutOffs makeReady() {
        return ShutOffs.of(house, house.sightings());
    }

    /** {@return the shut-off of the next box} */
    @Benchmark
    public ShutOff ofOneBox() {
        next = (next + 1) % boxes.size();
        return ready.of(Target.box(boxes.get(next)));
    }
}
