package org.splicebook.survey;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;

/** Random faults in random houses and what a person would tell of them. */
final class RandomFaults {
    static final LoadCase STATE = LoadCase.of(LoadCase.Base.ALL_ON);

    /** What came of one fault. */
    record Outcome(boolean shows, Suspect fault, List<Observed> told, Diagnosis diagnosis, int rank, double chance) {}

    /** A fault in a house. */
    record Put(LoadFlow flow, Workbench bench, Suspect fault, Random random) {}

    private RandomFaults() {}

    /** {@return the house of that seed with a fault in it, any that is looked for as likely as any other} */
    static Put put(long seed) {
        Random random = new Random(seed);
        LoadFlow flow = LoadFlow.of(RandomHouses.house(seed, Shape.SMALL));
        Workbench bench = new Workbench(flow, STATE);
        return new Put(
                flow,
                bench,
                bench.suspects().get(random.nextInt(bench.suspects().size())),
                random);
    }

    /** {@return what a person tells: all that changed, some that did not, a meter at two places, what tripped} */
    static List<Observed> told(Seen sound, Seen now, Random random) {
        List<Observed> told = new ArrayList<>();
        List<String> changed = new ArrayList<>();
        List<String> same = new ArrayList<>();
        for (String name : now.names()) {
            (now.at(name).differs(sound.at(name)) ? changed : same).add(name);
        }
        Collections.shuffle(same, random);
        Collections.shuffle(changed, random);
        changed.forEach(
                c -> told.add(Observed.usually(new Symptom.Works(c, now.at(c).level()))));
        same.stream()
                .limit(8)
                .forEach(c ->
                        told.add(Observed.usually(new Symptom.Works(c, now.at(c).level()))));
        for (String c : changed.subList(0, Math.min(2, changed.size()))) {
            for (Symptom.Between b : Symptom.Between.values()) {
                double volts = now.at(c).volts(b);
                told.add(Observed.usually(
                        new Symptom.Reads(c, b, Double.isNaN(volts) ? random.nextDouble() * 60 : volts)));
            }
        }
        now.tripped().stream()
                .filter(t -> !sound.tripped().contains(t))
                .forEach(t -> told.add(Observed.usually(new Symptom.Trips(t))));
        return told;
    }

    /** {@return what comes of the fault of that seed} */
    static Outcome one(long seed) {
        Put p = put(seed);
        Seen sound = p.bench.seen(Condition.USUAL, Suspect.NONE);
        Seen now = p.bench.seen(Condition.USUAL, p.fault);
        List<Observed> told = told(sound, now, p.random);
        Diagnosis d = Diagnosis.of(p.flow, STATE, told);
        Optional<Diagnosis.Alike> right =
                d.classes().stream().filter(c -> c.suspects().contains(p.fault)).findFirst();
        boolean isApart = d.unrelated().suspects().contains(p.fault);
        int rank = right.map(c -> d.classes().indexOf(c))
                .orElse(isApart ? d.classes().size() : -1);
        return new Outcome(
                now.differs(sound),
                p.fault,
                told,
                d,
                rank,
                right.map(Diagnosis.Alike::chance)
                        .orElse(isApart ? d.unrelated().chance() : 0.0));
    }
}
