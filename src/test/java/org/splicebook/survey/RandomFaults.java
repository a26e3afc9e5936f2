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
    /** What came of one fault. */
    record Outcome(boolean shows, int rank, double chance) {}

    private RandomFaults() {}

    /** {@return what a person tells: all that changed, some that did not, a meter at two places, what tripped} */
    static List<Symptom> told(Seen sound, Seen now, Random random) {
        List<Symptom> told = new ArrayList<>();
        List<String> changed = new ArrayList<>();
        List<String> same = new ArrayList<>();
        now.points().forEach((name, p) -> (p.differs(sound.at(name)) ? changed : same).add(name));
        Collections.shuffle(same, random);
        Collections.shuffle(changed, random);
        changed.forEach(c -> told.add(new Symptom.Works(c, now.at(c).level())));
        same.stream()
                .limit(8)
                .forEach(c -> told.add(new Symptom.Works(c, now.at(c).level())));
        for (String c : changed.subList(0, Math.min(2, changed.size()))) {
            for (Symptom.Between b : Symptom.Between.values()) {
                double volts = now.at(c).volts(b);
                told.add(new Symptom.Reads(c, b, Double.isNaN(volts) ? random.nextDouble() * 60 : volts));
            }
        }
        now.tripped().stream().filter(t -> !sound.tripped().contains(t)).forEach(t -> told.add(new Symptom.Trips(t)));
        return told;
    }

    /** {@return what comes of the fault of that seed} */
    static Outcome one(long seed) {
        Random random = new Random(seed);
        LoadFlow flow = LoadFlow.of(RandomHouses.house(seed, Shape.SMALL));
        List<Suspect> all = Suspects.of(flow.circuit());
        Suspect fault = all.get(random.nextInt(all.size()));
        LoadCase state = LoadCase.of(LoadCase.Base.ALL_ON);
        Seen sound = Seen.of(flow, state, Suspect.NONE);
        Seen now = Seen.of(flow, state, fault);
        List<Symptom> told = told(sound, now, random);
        Diagnosis d = Diagnosis.of(flow, state, told);
        Optional<Diagnosis.Alike> right =
                d.classes().stream().filter(c -> c.suspects().contains(fault)).findFirst();
        int rank = right.map(c -> d.classes().indexOf(c)).orElse(-1);
        boolean shows = now.differs(sound);
        return new Outcome(shows, rank, right.map(Diagnosis.Alike::chance).orElse(0.0));
    }
}
