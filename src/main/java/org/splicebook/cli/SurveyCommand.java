package org.splicebook.cli;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.SightingLine;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.HouseStore;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "survey",
        description = {
            "Maps a house by passes with chosen breakers off. plan: the next pass, what to do before and after, and a sheet to walk by;"
                    + " record: what was read in it; status: what feeds each load point, how surely, and what is left.",
            "The passes are kept as the house's sightings: a survey goes on another day, or with another person."
        })
final class SurveyCommand implements Callable<Integer> {
    private final Program program;
    private final Terminal terminal;

    /** What to do. */
    enum Deed {
        PLAN,
        RECORD,
        STATUS
    }

    @Parameters(index = "0", paramLabel = "plan|record|status", description = "What to do.")
    private Deed deed = Deed.STATUS;

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "NAME=VALUE",
            description = "With plan and status: method=coded, sure=0.99, misreads=0.02, stay-on=main.9, alone=main.3,"
                    + " free=main.5, backed-up=bed-1.")
    private Map<String, String> said = new LinkedHashMap<>();

    @Option(names = "--pass", paramLabel = "NAME", description = "With record: the pass, as plan called it.")
    private String pass = "";

    @Option(
            names = "--off",
            split = ",",
            paramLabel = "BREAKER",
            description = "With record: the breakers that were off, with commas between.")
    private List<String> off = new ArrayList<>();

    @Option(names = "--out", split = ",", paramLabel = "POINT", description = "With record: load points that were out.")
    private List<String> out = new ArrayList<>();

    @Option(names = "--lit", split = ",", paramLabel = "POINT", description = "With record: load points that were lit.")
    private List<String> lit = new ArrayList<>();

    @Option(names = "--with", paramLabel = "INSTRUMENT", description = "With record: what was read with; else a lamp.")
    private String instrument = "lamp";

    @Option(names = "--by", paramLabel = "NAME", description = "With record: who walked.")
    private @Nullable String by;

    @Mixin
    private HouseOption house = new HouseOption();

    @Mixin
    private StoreOptions store = new StoreOptions();

    @Mixin
    private OutputOptions output = new OutputOptions();

    SurveyCommand(Program program, Terminal terminal) {
        this.program = program;
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        try (HouseStore houses = program.open(store.choice())) {
            String id = house.of(houses);
            if (deed == Deed.RECORD) {
                record(houses, id);
            }
            String question = deed == Deed.PLAN ? "survey-pass" : "survey-status";
            output.print(houses.ask(question, id, said).get(), terminal);
        }
        return ExitCodes.OK;
    }

    private void record(HouseStore houses, String id) {
        if (pass.isBlank() || (out.isEmpty() && lit.isEmpty())) {
            throw new ProblemException(Problem.error(
                    ProblemKind.MISSING,
                    Where.field(pass.isBlank() ? "--pass" : "--out"),
                    "A record of a pass needs its name and what was read.",
                    "Say --pass pass-1 --off main.1,main.3 --out a,b --lit c,d; what is not named was not looked at."));
        }
        House record =
                houses.findHouse(id).orElseThrow(() -> Houses.notFound(id)).house();
        List<Sighting> sightings = new ArrayList<>();
        out.forEach(p -> sightings.add(sighting(record, p, "not lit")));
        lit.forEach(p -> sightings.add(sighting(record, p, "lit")));
        int fresh = houses.appendSightings(id, sightings).get();
        if (!output.json()) {
            terminal.out().println(fresh + " readings recorded as " + pass + ".");
        }
    }

    /** A point is read once in a pass, so pass, day and point are its id: said again, it is known already. */
    private Sighting sighting(House record, String point, String read) {
        String day = LocalDate.now(ZoneId.systemDefault()).toString();
        Map<String, String> all = new LinkedHashMap<>();
        all.put("id", pass + "-" + day + "-" + point.replaceAll("[^A-Za-z0-9-]", "-"));
        all.put("date", day);
        if (!off.isEmpty()) {
            all.put("with-off", String.join(",", off));
        }
        all.put("at", point);
        all.put("read", read);
        all.put("instrument", instrument);
        all.put("pass", pass);
        if (by != null) {
            all.put("by", by);
        }
        return SightingLine.parse(record, all).get();
    }
}
