package org.splicebook.web;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.BiFunction;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.sheet.Paper;
import org.splicebook.render.sheet.SheetKind;
import org.splicebook.render.sheet.Sheets;
import org.splicebook.render.sheet.Source;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Derivation;

/** Sheets of a stored house, as PDF. */
public final class HouseSheets {
    private HouseSheets() {}

    /**
     * {@return a sheet of the newest revision, as PDF}
     *
     * @param files where photographs are
     * @param stored that revision
     * @param kind a word of {@link SheetKind}
     * @param of of what; may be empty; of {@code notice} and {@code visit} the name of a visit
     * @param paper {@code a4} or {@code letter}
     * @throws ProblemException if there is no such kind, subject or paper
     */
    public static byte[] pdf(HouseStore store, Files files, StoredHouse stored, String kind, String of, String paper) {
        String id = stored.revision().house();
        if (kind.equals(VisitSheets.NOTICE) || kind.equals(VisitSheets.VISIT)) {
            return SheetPdf.of(VisitSheets.of(store, stored, kind, of), paper(paper));
        }
        return pdf(
                stored.house(),
                stored.revision(),
                false,
                store.sightings(id),
                (question, parameters) -> store.ask(question, id, parameters).get(),
                files,
                kind,
                of,
                paper);
    }

    /** {@return a sheet of the house as a draft would make it, marked on every page; what was observed is of the house as it stands} */
    static byte[] pdf(HouseStore store, Files files, DraftedHouse drafted, String kind, String of, String paper) {
        return pdf(
                drafted.house(),
                drafted.base(),
                true,
                List.of(),
                (question, parameters) ->
                        store.askDraft(question, drafted, parameters).get(),
                files,
                kind,
                of,
                paper);
    }

    private static byte[] pdf(
            House house,
            Revision revision,
            boolean isDraft,
            List<Sighting> sightings,
            BiFunction<String, Map<String, String>, Reply> ask,
            Files files,
            String kind,
            String of,
            String paper) {
        SheetKind what = SheetKind.find(kind)
                .orElseThrow(() -> wrong(
                        "kind", "'" + kind + "' is no sheet.", "There are " + SheetKind.words() + ", notice, visit."));
        Paper on = paper(paper);
        Source source = new Source(
                Derivation.derive(house),
                revision.number(),
                revision.stored().atZone(ZoneOffset.UTC).toLocalDate(),
                LocalDate.now(ZoneOffset.UTC),
                isDraft,
                sightings,
                ask,
                name -> Prints.find(files, name));
        return SheetPdf.of(Sheets.of(source, what, of), on);
    }

    private static Paper paper(String word) {
        if (!word.toLowerCase(Locale.ROOT).matches("a4|letter")) {
            throw wrong("paper", "'" + word + "' is no paper that is known.", "There are a4 and letter.");
        }
        return Paper.valueOf(word.toUpperCase(Locale.ROOT));
    }

    private static ProblemException wrong(String field, String found, String right) {
        return new ProblemException(Problem.error(ProblemKind.NOT_FOUND, Where.field(field), found, right));
    }
}
