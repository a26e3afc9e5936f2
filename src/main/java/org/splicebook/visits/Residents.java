package org.splicebook.visits;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/** Who lives in a house, as far as work has to know it. Personal: never in a revision, read by managers alone, erased when it is no longer needed. */
public final class Residents {
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]{0,63}");

    private final HouseStore store;

    /** Works on a store. */
    public Residents(HouseStore store) {
        this.store = store;
    }

    /** One: the name that it is kept under, and what is known, by field. */
    public record Resident(String key, Map<String, String> said) {
        public Resident {
            said = Collections.unmodifiableMap(new LinkedHashMap<>(said));
        }

        /** {@return what is known under a name; empty where nothing is} */
        public String value(String field) {
            return said.getOrDefault(field, "");
        }
    }

    /** {@return those of a house; the look is logged} */
    public List<Resident> list(String house) {
        return store.papers().list(Papers.RESIDENT, house).stream()
                .map(p -> new Resident(
                        p.name(),
                        Said.read(p.lines().get(p.lines().size() - 1).text()).said()))
                .toList();
    }

    /**
     * Keeps what is known of one, in the place of what was.
     *
     * @param key what it is kept under
     * @throws ProblemException where what is said is wrong
     */
    public void keep(String house, String key, Map<String, String> said, Instant now, String who) {
        if (!NAME.matcher(key).matches()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.BAD_NAME, Where.field("key"), "'" + key + "' is no key.", "Use a-z, 0-9 and -."));
        }
        if (store.findHouse(house).isEmpty()) {
            throw new ProblemException(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("house"),
                    "There is no house " + house + ".",
                    "Look at the list of houses."));
        }
        Map<String, String> clean = Said.checked(VisitKinds.resident(), said);
        Paper.Line line = new Paper.Line(now.truncatedTo(ChronoUnit.MILLIS), who, new Said("", clean).write());
        store.papers().keep(new Paper(Papers.RESIDENT, house, key, List.of(line)), depends(clean));
    }

    /** {@return whether somebody of whom this is known depends on power} */
    static boolean depends(Map<String, String> said) {
        return !said.getOrDefault("depends", "").isEmpty();
    }

    /** {@return whether what is kept in a paper is of somebody who depends on power} */
    public static boolean depends(Paper paper) {
        return paper.kind().equals(Papers.RESIDENT)
                && !paper.lines().isEmpty()
                && depends(Said.read(paper.lines().get(paper.lines().size() - 1).text())
                        .said());
    }

    /** Erases one; {@return whether there was one} */
    public boolean erase(String house, String key) {
        return store.papers().erase(Papers.RESIDENT, house, key);
    }
}
