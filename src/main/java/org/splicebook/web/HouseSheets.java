package org.splicebook.web;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Locale;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.SheetKind;
import org.splicebook.render.sheet.Sheets;
import org.splicebook.render.sheet.Source;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** Sheets of a stored house, as PDF. */
public final class HouseSheets {
    private HouseSheets() {}

    /**
     * {@return a sheet of the newest revision, as PDF}
     *
     * @param stored that revision
     * @param kind a word of {@link SheetKind}
     * @param of of what; may be empty
     * @param paper {@code a4} or {@code letter}
     * @throws ProblemException if there is no such kind, subject or paper
     */
    public static byte[] pdf(HouseStore store, StoredHouse stored, String kind, String of, String paper) {
        SheetKind what = SheetKind.find(kind)
                .orElseThrow(
                        () -> wrong("kind", "'" + kind + "' is no sheet.", "There are " + SheetKind.words() + "."));
        if (!paper.toLowerCase(Locale.ROOT).matches("a4|letter")) {
            throw wrong("paper", "'" + paper + "' is no paper that is known.", "There are a4 and letter.");
        }
        String id = stored.revision().house();
        Source source = new Source(
                Derivation.derive(stored.house()),
                stored.revision().number(),
                stored.revision().stored().atZone(ZoneOffset.UTC).toLocalDate(),
                LocalDate.now(ZoneOffset.UTC),
                store.sightings(id),
                (question, parameters) -> store.ask(question, id, parameters).get());
        return SheetPdf.of(Sheets.of(source, what, of), Paper.valueOf(paper.toUpperCase(Locale.ROOT)));
    }

    private static ProblemException wrong(String field, String found, String right) {
        return new ProblemException(Problem.error(ProblemKind.NOT_FOUND, Where.field(field), found, right));
    }
}
