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
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.record.House;
import org.splicebook.record.Protection;
import org.splicebook.rewire.search.Search;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Packs;

/** A search in the sample house that judges 200 changes; each is derived, checked and, where it passes so far, solved. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class ValidationBench {
    private final House house = HouseFiles.read(Path.of("sample-house")).get();

    /** {@return how many were judged} */
    @Benchmark
    public int twoHundredChanges() {
        Wish wish = new Wish.Protect(Protection.GROUND_FAULT, List.of("outside-1.top"));
        return Search.of(house, Packs.us(2023), wish, Kinds.standard(), 200, looked -> true)
                .get()
                .looked();
    }
}
