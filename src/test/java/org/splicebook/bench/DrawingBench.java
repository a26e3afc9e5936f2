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
import org.splicebook.render.drawing.Drawing;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** How long a drawing of the sample house takes once its wiring is derived: one of each kind, the large ones. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class DrawingBench {
    /** Kind and subject. */
    @Param({"circuit main.18", "box stair-head", "way bath-1.top", "panel main", "house main.24", "reach shop-gf"})
    public String wanted = "";

    private Wiring wiring;

    /** Derives the wiring. */
    @Setup
    public void derive() {
        wiring = Derivation.derive(HouseFiles.read(Path.of("sample-house")).get());
    }

    /** {@return the drawing} */
    @Benchmark
    public Drawing draw() {
        String[] words = wanted.split(" ", -1);
        return Drawings.of(DrawingKind.find(words[0]).orElseThrow(), wiring, words[1]);
    }
}
