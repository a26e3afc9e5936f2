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
import org.splicebook.rewire.search.FullValidations;
import org.splicebook.rewire.search.Search;
import org.splicebook.rewire.search.Wish;
import org.splicebook.rules.Packs;

/** Full validations of changes to the sample house, and a search in it that judges 200. */
@State(Scope.Benchmark)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class ValidationBench {
    private final House house = HouseFiles.read(Path.of("sample-house")).get();
    private final FullValidations changes = FullValidations.of(house, Packs.us(2023));
    private int next;

    /** {@return what speaks against a change, judged with nothing left out} */
    @Benchmark
    @BenchmarkMode(Mode.Throughput)
    @OutputTimeUnit(TimeUnit.SECONDS)
    public int full() {
        // A stride that has no factor in common with their number: small and large parts are mixed.
        next = (next + 7919) % changes.count();
        return changes.judge(next);
    }

    /** {@return how many were judged} */
    @Benchmark
    @BenchmarkMode(Mode.AverageTime)
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    public int twoHundredChanges() {
        Wish wish = new Wish.Protect(Protection.GROUND_FAULT, List.of("outside-1.top"));
        return Search.of(house, Packs.us(2023), wish, Kinds.standard(), 200, looked -> true)
                .get()
                .looked();
    }
}
