package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;

/** What each load point does in every position of the levers that matter to it, as recorded; breakers and protective contacts closed. */
public final class LeverTables {
    private static final String NEUTRAL = "neutral";

    private final Net net;
    private final Regions regions;
    private final LeverState state;
    private final Map<Integer, Set<String>> sourcePoles;

    /** What a load point does. */
    public enum Does {
        /** Unlike voltages lie across it: it works. */
        ON,
        /** It does not work, and a terminal of it is hot. */
        OFF_AND_LIVE,
        /** It does not work, and no terminal of it is hot. */
        OFF
    }

    /**
     * The table of one load point.
     *
     * @param loadPoint its id
     * @param levers the levers that matter to it: a device's name, or its name, a dot and the lever's
     * @param rows one for each combination of their positions; a single one where none matters; none where there are too many to try
     */
    public record Table(String loadPoint, List<String> levers, List<Row> rows) {
        public Table {
            levers = List.copyOf(levers);
            rows = List.copyOf(rows);
        }
    }

    /**
     * One combination.
     *
     * @param positions the position of each lever, in the order of the table's levers
     * @param does what the load point does then
     */
    public record Row(List<String> positions, Does does) {
        public Row {
            positions = List.copyOf(positions);
        }
    }

    private final boolean[] barLive;
    private final int[] seen;
    private final int[] queue;
    private int stamp;

    private LeverTables(Net net, Regions regions, LeverState state, Trunk trunk) {
        this.net = net;
        this.regions = regions;
        this.state = state;
        this.sourcePoles = trunk.sourcePoles(state);
        this.barLive = new boolean[net.size];
        trunk.live.forEach(live -> live.stream().forEach(v -> barLive[v] = true));
        this.seen = new int[net.size];
        this.queue = new int[net.size];
    }

    /** {@return the table of every load point, in order of their ids} */
    public static List<Table> of(House house) {
        Net net = NetBuilder.build(house);
        Regions regions = net.regions();
        LeverState state = new LeverState(net);
        return told(new LeverTables(net, regions, state, new Trunk(net, regions, state)));
    }

    /** {@return the tables, over a netlist that is there} */
    static List<Table> of(Reach reach) {
        return told(new LeverTables(reach.net, reach.regions, reach.state, reach.trunk));
    }

    private static List<Table> told(LeverTables t) {
        return t.net.loadPoints.stream()
                .map(t::table)
                .sorted(java.util.Comparator.comparing(Table::loadPoint))
                .toList();
    }

    private Table table(Net.LoadPoint lp) {
        Set<Integer> near = new TreeSet<>();
        for (int t : lp.terminals()) {
            for (int l : regions.all.get(regions.of[t]).levers) {
                near.add(l);
            }
        }
        int[] levers = Regions.ints(near);
        if (LeverState.combinations(net, levers, Reach.CAP) > Reach.CAP) {
            return new Table(lp.id(), names(levers), List.of());
        }
        Does[] all = tried(lp, levers);
        int[] mattering =
                Arrays.stream(levers).filter(l -> matters(levers, l, all)).toArray();
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i < LeverState.combinations(net, mattering, Reach.CAP); i++) {
            int[] at = positions(mattering, i);
            rows.add(new Row(words(mattering, at), all[index(levers, mattering, at)]));
        }
        return new Table(lp.id(), names(mattering), rows);
    }

    private Does[] tried(Net.LoadPoint lp, int[] levers) {
        Does[] all = new Does[(int) LeverState.combinations(net, levers, Reach.CAP)];
        for (int i = 0; i < all.length; i++) {
            state.set(levers, i);
            all[i] = does(lp);
        }
        state.join(levers);
        return all;
    }

    private Does does(Net.LoadPoint lp) {
        boolean isHot = false;
        for (int[] pair : lp.pairs()) {
            Set<String> a = potentials(pair[0]);
            Set<String> b = potentials(pair[1]);
            if (a.stream().anyMatch(x -> b.stream().anyMatch(y -> !x.equals(y)))) {
                return Does.ON;
            }
            isHot |= isHot(a) || isHot(b);
        }
        return isHot ? Does.OFF_AND_LIVE : Does.OFF;
    }

    private static boolean isHot(Set<String> potentials) {
        return potentials.stream().anyMatch(p -> !p.equals(NEUTRAL));
    }

    /** {@return the source poles that a terminal reaches, and the neutral if it reaches that} */
    private Set<String> potentials(int terminal) {
        Set<String> found = new TreeSet<>();
        stamp++;
        int n = 0;
        queue[n++] = terminal;
        seen[terminal] = stamp;
        for (int i = 0; i < n; i++) {
            int v = queue[i];
            if (net.kind[v] == Net.Kind.SOURCE_POLE) {
                found.add(net.name(v));
            } else if (net.kind[v] == Net.Kind.SOURCE_NEUTRAL) {
                found.add(NEUTRAL);
            }
            for (int k = net.start[v]; k < net.start[v + 1]; k++) {
                int u = net.adjacent[k];
                if (net.kind[u] == Net.Kind.BUS && net.kind[v] == Net.Kind.POLE) {
                    found.addAll(sourcePoles.getOrDefault(u, Set.of()));
                } else if (net.kind[u] == Net.Kind.NEUTRAL_BAR && barLive[u]) {
                    found.add(NEUTRAL);
                } else if (!net.cut[u] && seen[u] != stamp && state.conducts(u)) {
                    seen[u] = stamp;
                    queue[n++] = u;
                }
            }
        }
        return found;
    }

    private boolean matters(int[] levers, int lever, Does[] all) {
        for (int i = 0; i < all.length; i++) {
            int[] at = positions(levers, i);
            int k = indexOf(levers, lever);
            int was = at[k];
            for (int p = 0; p < was; p++) {
                at[k] = p;
                if (all[index(levers, levers, at)] != all[i]) {
                    return true;
                }
            }
        }
        return false;
    }

    private int[] positions(int[] levers, int index) {
        int[] at = new int[levers.length];
        int rest = index;
        for (int k = 0; k < levers.length; k++) {
            int n = net.levers.get(levers[k]).positions();
            at[k] = rest % n;
            rest /= n;
        }
        return at;
    }

    /** The number of a combination of all levers in which those given stand so, and the others as they stand first. */
    private int index(int[] all, int[] some, int[] at) {
        int index = 0;
        int weight = 1;
        for (int lever : all) {
            int k = indexOf(some, lever);
            index += weight * (k < 0 ? 0 : at[k]);
            weight *= net.levers.get(lever).positions();
        }
        return index;
    }

    private static int indexOf(int[] levers, int lever) {
        for (int k = 0; k < levers.length; k++) {
            if (levers[k] == lever) {
                return k;
            }
        }
        return -1;
    }

    private List<String> names(int[] levers) {
        return Arrays.stream(levers).mapToObj(l -> net.levers.get(l).name()).toList();
    }

    private List<String> words(int[] levers, int[] at) {
        List<String> words = new ArrayList<>();
        for (int k = 0; k < levers.length; k++) {
            words.add(word(net.levers.get(levers[k]).name(), at[k]));
        }
        return words;
    }

    private String word(String lever, int position) {
        String[] name = lever.split("\\.", 2);
        Net.Placed placed = net.devices.get(name[0]);
        String own = name.length == 1 ? "lever" : name[1];
        return placed == null
                ? String.valueOf(position + 1)
                : placed.device().kind().levers().stream()
                        .filter((DeviceKind.Lever l) -> l.name().equals(own))
                        .map(l -> l.positions().get(position))
                        .findFirst()
                        .orElse(String.valueOf(position + 1));
    }
}
