package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.splicebook.oracle.Netlist.Load;
import org.splicebook.record.House;
import org.splicebook.wiring.LeverTables;

/** The truth tables of switches against the oracle's flood of the raw netlist, position by position. */
class LeverTablesEqualOracleTest {
    private static final int HOUSES = Integer.getInteger("oracle.houses", 60);

    @Test
    void inEveryPositionTheTableSaysWhetherALoadPointIsLiveAndWorks() {
        List<String> differences = new ArrayList<>();
        int compared = 0;
        for (long seed = 0; seed < HOUSES; seed++) {
            House house = RandomHouses.house(seed, Shape.SMALL);
            Oracle oracle = new Oracle(house);
            for (LeverTables.Table t : LeverTables.of(house)) {
                Load load = oracle.net.loads.stream()
                        .filter(l -> l.id().equals(t.loadPoint()))
                        .findFirst()
                        .orElseThrow();
                for (LeverTables.Row r : t.rows()) {
                    compared++;
                    String expected = flooded(oracle, load, world(oracle, t, r));
                    String found = r.does() == LeverTables.Does.OFF ? "dead" : "live";
                    found += r.does() == LeverTables.Does.ON ? " works" : "";
                    boolean same =
                            expected.equals("live over two poles") ? found.startsWith("live") : expected.equals(found);
                    if (!same) {
                        differences.add("seed " + seed + ": " + t.loadPoint() + " at " + t.levers() + r.positions()
                                + ": " + found + ", flooded " + expected);
                    }
                }
            }
        }
        assertThat(differences.stream().limit(10)).isEmpty();
        assertThat(compared).isGreaterThan(HOUSES * 10);
    }

    private static World world(Oracle oracle, LeverTables.Table t, LeverTables.Row r) {
        int[] position = new int[oracle.net.levers.size()];
        for (int i = 0; i < position.length; i++) {
            Netlist.Lever lever = oracle.net.levers.get(i);
            int at = t.levers().indexOf(lever.name().replace("/lever", "").replace('/', '.'));
            // Feeders that exclude each other are joined in the tables.
            position[i] = lever.exclusive()
                    ? World.ALL
                    : at < 0 ? 0 : lever.positions().indexOf(r.positions().get(at));
        }
        return new World(oracle.net, position, new BitSet());
    }

    /** Whether a terminal is hot, and whether one of its pairs lies between a pole and a neutral. */
    private static String flooded(Oracle oracle, Load load, World world) {
        boolean hot = false;
        boolean works = false;
        boolean twoPoles = false;
        for (int[] pair : load.pairs()) {
            Oracle.Reach a = oracle.reach(world, pair[0]);
            Oracle.Reach b = oracle.reach(world, pair[1]);
            hot |= a.hot() || b.hot();
            works |= (a.hot() && b.neutral()) || (b.hot() && a.neutral());
            // Whether two poles are on unlike legs is the derivation's own affair; others hold that.
            twoPoles |= a.hot() && b.hot() || a.poles().size() > 1 || b.poles().size() > 1;
        }
        return !hot ? "dead" : works ? "live works" : twoPoles ? "live over two poles" : "live";
    }
}
