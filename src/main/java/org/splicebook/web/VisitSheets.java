package org.splicebook.web;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.ProblemKind;
import org.splicebook.render.sheet.LetterSheet;
import org.splicebook.render.sheet.Sheet;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.visits.Field;
import org.splicebook.visits.Visit;
import org.splicebook.visits.VisitDesk;

/** Sheets of visits. */
final class VisitSheets {
    /** The notice to whoever lives there. */
    static final String NOTICE = "notice";

    /** What was done. */
    static final String VISIT = "visit";

    private VisitSheets() {}

    /** {@return the sheet of a visit of the house; of is its name} */
    static Sheet of(HouseStore store, StoredHouse stored, String kind, String of) {
        VisitDesk desk = new VisitDesk(store);
        Visit v = desk.find(stored.house().id(), of)
                .orElseThrow(() -> Failures.failure(
                        ProblemKind.NOT_FOUND,
                        "There is no visit '" + of + "'.",
                        "Name one of the visits of the house."));
        String stamp = "Revision " + stored.revision().number() + ", printed " + LocalDate.now(ZoneOffset.UTC) + ".";
        if (kind.equals(NOTICE)) {
            Map<String, String> said = new LinkedHashMap<>();
            for (String f : List.of("day", "between", "entry", "noticed")) {
                said.put(f, v.last("arrange", f));
            }
            said.put("who", v.last("plan", "who"));
            return LetterSheet.notice(stored.house().said(), stamp, said, desk.affected(v));
        }
        Map<String, List<String>> steps = new LinkedHashMap<>();
        int n = 0;
        for (Visit.Step s : v.steps()) {
            List<String> lines = new ArrayList<>(List.of(Pages.minute(s.at()) + ", " + s.who()));
            for (Field f : s.kind().fields()) {
                if (!s.value(f.name()).isEmpty()) {
                    lines.add(f.label() + ": " + s.value(f.name()).replace("\n", "; "));
                }
            }
            steps.put(++n + ". " + s.kind().title(), lines);
        }
        return LetterSheet.visit(
                v.name() + ": " + v.state().title(),
                stored.house().said(),
                stamp,
                steps,
                desk.since(v),
                desk.openTests(v));
    }
}
