package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.splicebook.housefile.SightingLine;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.Json;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "sight",
        description = {
            "Records one thing that was observed, in the words of a house file. Several names stand with commas between.",
            "",
            "A lamp:        with-off=main.6 at=bath-gf before=lit read=\"not lit\" after=lit instrument=lamp",
            "Volts:         volts=118 between=bench-1.top.hot,bench-1.top.neutral instrument=meter",
            "Plug-in test:  at=door-1.top lamps=110       (hot-neutral, hot-ground, neutral-ground; 1 is lit)",
            "Trip button:   pressed=bath-gf went-out=bath-gf,bath-1.top stayed=door-1.top",
            "Clamp:         amperes=0.6 around=K6",
            "Continuity:    continuity=yes between=K4.a,K9.black  (power off)",
            "Load step:     step-at=bench-1.top seen-at=main.1",
            "Traced:        traced=K4,bench-1 how=tone",
            "Label:         label=\"Bench left\" at=main.1",
            "",
            "Beside these: date (else today), id (else the next), levers=foot:up, pass, by, note."
        })
final class SightCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    @Parameters(arity = "1..*", paramLabel = "NAME=VALUE", description = "What was seen, and under which conditions.")
    private Map<String, String> said = new LinkedHashMap<>();

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    SightCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            House record =
                    houses.findHouse(id).orElseThrow(() -> Houses.notFound(id)).house();
            Map<String, String> all = new LinkedHashMap<>(said);
            all.putIfAbsent("id", next(houses.sightings(id)));
            all.putIfAbsent("date", LocalDate.now(ZoneId.systemDefault()).toString());
            Sighting sighting = SightingLine.parse(record, all).get();
            int fresh = houses.appendSightings(id, List.of(sighting)).get();
            print(sighting, fresh);
        }
        return ExitCodes.OK;
    }

    /** {@return the first of s1, s2, ... that is not taken} */
    private static String next(List<Sighting> known) {
        Set<String> taken = known.stream().map(Sighting::id).collect(Collectors.toSet());
        int n = known.size() + 1;
        while (taken.contains("s" + n)) {
            n++;
        }
        return "s" + n;
    }

    private void print(Sighting sighting, int fresh) {
        if (output.json()) {
            ObjectNode o = Json.object();
            o.put("id", sighting.id());
            o.put("date", sighting.date());
            o.put("new", fresh);
            terminal.out().println(Json.text(o));
        } else {
            terminal.out()
                    .println(
                            fresh == 0
                                    ? "Sighting " + sighting.id() + " was known already, with the same content."
                                    : "Recorded as " + sighting.id() + " of " + sighting.date() + ".");
        }
    }
}
