package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.splicebook.loadflow.Circuit;
import org.splicebook.loadflow.Fault;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Variations;

/** A house in one state with all that may be wrong in it, ready to be looked at under many conditions. */
final class Workbench {
    /** Below this share of the best, or beyond so many, suspects are told apart in the state of the symptoms only. */
    private static final double WORTH_A_LOOK = 1e-4;

    private static final int MOST_LOOKED_AT = 250;

    private final Circuit circuit;
    private final LoadCase state;
    private final Faces faces;
    private final Regions regions;
    private final List<Suspect> suspects;
    private final Variations usual;
    private final Map<Condition, Look> byCondition = new ConcurrentHashMap<>();
    private final List<Look> others;

    /** A state to look in, and what is seen in it without a fault. */
    private record Look(Variations variations, Seen sound) {
        static Look of(Variations variations, Faces faces) {
            return new Look(variations, Seen.of(variations, Suspect.NONE, faces, null));
        }
    }

    Workbench(LoadFlow flow, LoadCase state) {
        this.circuit = flow.circuit();
        this.state = state;
        this.faces = new Faces(circuit);
        this.regions = Regions.of(circuit);
        this.suspects = Suspects.of(circuit);
        List<Fault> touches =
                suspects.stream().flatMap(s -> s.faults().stream()).toList();
        this.usual = Variations.of(flow, state, touches);
        this.others = Setting.ALL.stream()
                .skip(1)
                .map(x -> Look.of(usual.in(set(x)), faces))
                .toList();
    }

    private LoadCase set(Setting setting) {
        return switch (setting) {
            case AS_USUAL -> state;
            case NOTHING_ON -> state.withBase(LoadCase.Base.NOTHING_ON);
            case EVERYTHING_ON -> state.withBase(LoadCase.Base.ALL_ON);
            case SWITCHES_MOVED -> moved();
        };
    }

    private LoadCase moved() {
        LoadCase moved = state;
        for (Map.Entry<String, List<String>> l : circuit.levers().entrySet()) {
            String first = Objects.requireNonNull(l.getValue().get(0));
            String now = state.levers().getOrDefault(l.getKey(), first);
            String next = l.getValue()
                    .get((l.getValue().indexOf(now) + 1) % l.getValue().size());
            moved = moved.lever(l.getKey(), next);
        }
        return moved;
    }

    Circuit circuit() {
        return circuit;
    }

    Regions regions() {
        return regions;
    }

    List<Suspect> suspects() {
        return suspects;
    }

    Faces faces() {
        return faces;
    }

    Seen seen(Condition when, Suspect s) {
        Look look = byCondition.computeIfAbsent(
                when, w -> Look.of(w.equals(Condition.USUAL) ? usual : usual.in(w.in(set(w.setting()))), faces));
        return look(look, s);
    }

    private Seen look(Look look, Suspect s) {
        return s.equals(Suspect.NONE) ? look.sound : Seen.of(look.variations, s, faces, look.sound);
    }

    /** {@return what is seen in the state of the symptoms and in the others that people can look in} */
    List<Seen> shown(Suspect s, Seen first) {
        List<Seen> all = new ArrayList<>(List.of(first));
        others.forEach(o -> all.add(look(o, s)));
        return all;
    }

    /** {@return the suspects that show nothing in any state} */
    List<Suspect> silent() {
        Seen usually = seen(Condition.USUAL, Suspect.NONE);
        List<Seen> sound = shown(Suspect.NONE, usually);
        return suspects.parallelStream()
                .filter(s -> {
                    Seen first = seen(Condition.USUAL, s);
                    return !first.differs(usually) && alike(sound, shown(s, first));
                })
                .toList();
    }

    private static boolean alike(List<Seen> a, List<Seen> b) {
        for (int i = 0; i < Math.min(a.size(), b.size()); i++) {
            if (a.get(i).differs(b.get(i))) {
                return false;
            }
        }
        return true;
    }

    /** A class that grows round its most likely suspect, with which all others are compared. */
    private static final class Grown {
        private final List<Suspect> suspects = new ArrayList<>();
        private final boolean silent;
        private final List<Seen> shown;
        private double weight;

        private Grown(boolean silent, List<Seen> shown) {
            this.silent = silent;
            this.shown = shown;
        }

        private void add(Diagnosis.Judged j) {
            suspects.add(j.suspect());
            weight += j.weight();
        }
    }

    /**
     * {@return what no test from outside tells apart, together}
     *
     * @param sum the weights of all, these among them
     */
    List<Diagnosis.Alike> classes(List<Diagnosis.Judged> judged, double sum) {
        List<Diagnosis.Judged> ranked = judged.stream()
                .sorted(Comparator.comparingDouble(Diagnosis.Judged::weight).reversed())
                .toList();
        int near = 0;
        while (near < Math.min(ranked.size(), MOST_LOOKED_AT)
                && ranked.get(near).weight() >= ranked.get(0).weight() * WORTH_A_LOOK) {
            near++;
        }
        List<Seen> sound = shown(Suspect.NONE, seen(Condition.USUAL, Suspect.NONE));
        List<List<Seen>> shown = ranked.subList(0, near).parallelStream()
                .map(j -> shown(j.suspect(), j.seen().get(0)))
                .toList();
        List<Grown> all = new ArrayList<>();
        for (int i = 0; i < near; i++) {
            List<Seen> here = shown.get(i);
            boolean isSilent = alike(sound, here);
            Grown in = all.stream()
                    .filter(g -> isSilent ? g.silent : !g.silent && alike(g.shown, here))
                    .findFirst()
                    .orElse(null);
            if (in == null) {
                in = new Grown(isSilent, here);
                all.add(in);
            }
            in.add(ranked.get(i));
        }
        Map<Integer, Grown> far = new LinkedHashMap<>();
        for (Diagnosis.Judged j : ranked.subList(near, ranked.size())) {
            Seen seen = j.seen().get(0);
            far.computeIfAbsent(seen.sketch(), k -> new Grown(false, List.of(seen)))
                    .add(j);
        }
        all.addAll(far.values());
        return all.stream()
                .map(g -> new Diagnosis.Alike(g.suspects, g.weight / sum, g.silent, g.shown))
                .sorted(Comparator.comparingDouble(Diagnosis.Alike::chance).reversed())
                .toList();
    }
}
