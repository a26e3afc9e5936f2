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
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Wiring;

/** How long a derivation takes, and how that grows with the number of wires. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
public class DerivationBench {
    /** The sample house, or a random house of about so many wires; the largest takes minutes in all. */
    @Param({"sample-house", "500", "2000", "20000"})
    public String wires = "";

    /** One that has a subpanel and a single source. */
    private static final long SEED = 9;

    private House house;

    /** Makes the house. */
    @Setup
    public void makeHouse() {
        house = wires.equals("sample-house")
                ? HouseFiles.read(Path.of("sample-house")).get()
                : RandomHouses.house(SEED, shape(Integer.parseInt(wires)));
        int recorded =
                house.cables().values().stream().mapToInt(c -> c.wires().size()).sum();
        System.out.printf("# %d wires in %d boxes%n", recorded, house.boxes().size());
    }

    /** In random houses there are about ten wires to a breaker, and three to a load point. */
    private static Shape shape(int wires) {
        return new Shape(wires / 10, wires / 3, wires / 80);
    }

    /** {@return the wiring, what is put off not looked at} */
    @Benchmark
    public Wiring derive() {
        return Derivation.derive(house);
    }

    /**
     * All of it: what is lost with each thing, what everything relies on, every hop of every way.
     *
     * @return how much that is
     */
    @Benchmark
    public int everything() {
        Wiring w = Derivation.derive(house);
        int n = w.losses().size();
        for (LoadPointWiring p : w.loadPoints()) {
            n += p.reliesOn().size();
            for (Feed f : p.feeds()) {
                n += f.way().hops().size();
            }
            for (Return r : p.returns()) {
                n += r.way().hops().size();
            }
            for (Return r : p.grounds()) {
                n += r.way().hops().size();
            }
        }
        return n;
    }
}
