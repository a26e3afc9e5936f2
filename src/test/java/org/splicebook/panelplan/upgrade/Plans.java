package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.schedule.Scheduler;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.rules.Packs;

/** Plans for tests. */
final class Plans {
    /** Long enough for a proof on a busy machine. */
    static final double SECONDS = 120;

    private Plans() {}

    static House house(String body) {
        return HouseFiles.parse("house", """
                splicebook: 1
                house: small
                built: 1950
                basis: seen
                area: 1400 ft2
                complete: [cables, joints, breakers, landings]
                """ + body).get();
    }

    static Result<UpgradePlan> plan(
            House house, String kind, Consumer<TellReader> told, Consumer<WantedReader> wanted) {
        TellReader loads = new TellReader(house);
        told.accept(loads);
        WantedReader reader = new WantedReader(house, kind, null, loads);
        reader.seconds(SECONDS);
        wanted.accept(reader);
        Result<Wanted> read = reader.read();
        return read.isOk()
                ? Upgrades.plan(house, Packs.of(house), read.get(), null, Scheduler.Progress.NONE)
                : new Result.Failed<>(read.problems());
    }

    /** A panel of 200 A in the sample house, or what was made of it, with vehicle charger and second heat pump. */
    static UpgradePlan chargerAndHeatPump(House house) {
        return plan(
                        house,
                        "200-42",
                        t -> {
                            t.smallAppliance(2);
                            t.laundry(1);
                            t.allListed();
                            t.nameplate("range", "12 kW");
                            t.nameplate("dryer", "5 kW");
                            t.nameplate("microwave", "1.5 kW");
                            t.nameplate("dishwasher", "1.2 kW");
                            t.nameplate("opener", "500 W");
                            t.nameplate("attic-fan", "250 W");
                            t.without("vehicle");
                            t.add("ev 32 A");
                            t.add("heat pump 15 A");
                        },
                        w -> {
                            w.protect("all");
                            w.place("ev", "outdoors");
                            w.length("ev", "12 m");
                            w.place("heat pump", "outdoors");
                            w.length("heat pump", "10 m");
                            w.year(2026);
                        })
                .get();
    }

    static UpgradePlan plan(House house, String kind) {
        return plan(house, kind, t -> {}, w -> {}).get();
    }

    /** Wires by the terminal that they land on. */
    static Map<String, List<String>> landings(Panel p) {
        return p.joints().stream()
                .flatMap(j -> wires(j).stream().map(w -> Map.entry(terminal(j), w)))
                .collect(Collectors.groupingBy(
                        Map.Entry::getKey, Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
    }

    private static String terminal(Joint j) {
        return j.members().stream()
                .filter(r -> !(r instanceof Ref.WireEnd))
                .map(Ref::said)
                .findFirst()
                .orElse("");
    }

    private static List<String> wires(Joint j) {
        return new ArrayList<>(j.members().stream()
                .filter(r -> r instanceof Ref.WireEnd)
                .map(Ref::said)
                .toList());
    }
}
