package org.splicebook.render.sheet;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.splicebook.answer.Reply;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.ReplyText;
import org.splicebook.wiring.Wiring;

/**
 * What sheets are made of.
 *
 * @param wiring what is derived of the revision
 * @param revision its number
 * @param stored the day on which it was stored
 * @param printed today
 * @param isDraft whether it is the house as a draft would make it, made on that revision
 * @param sightings what was observed
 * @param ask asks a question, by its id and parameters, of the same house
 * @param photographs finds a photograph by the name of its file, if that is on this machine
 */
public record Source(
        Wiring wiring,
        long revision,
        LocalDate stored,
        LocalDate printed,
        boolean isDraft,
        List<Sighting> sightings,
        BiFunction<String, Map<String, String>, Reply> ask,
        Function<String, Optional<Sheet.Print>> photographs) {
    public Source {
        sightings = List.copyOf(sightings);
    }

    House house() {
        return wiring.house();
    }

    String stamp() {
        return (isDraft ? ReplyText.DRAFT + " Made on revision " : "Revision ") + revision + " of " + stored
                + ", printed " + printed + ".";
    }
}
