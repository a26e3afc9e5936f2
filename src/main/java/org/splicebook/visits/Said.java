package org.splicebook.visits;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/**
 * A line of a paper, as it is kept.
 *
 * @param step the word of the step; empty for a resident
 * @param said what is said, by field
 */
record Said(String step, Map<String, String> said) {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int MOST = 4_000;

    String write() {
        try {
            return JSON.writeValueAsString(this);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    static Said read(String text) {
        try {
            return JSON.readValue(text, Said.class);
        } catch (JsonProcessingException e) {
            throw new ProblemException(Problem.error(
                    ProblemKind.SYNTAX, Where.NOWHERE, "A line beside the house cannot be read.", "Restore a copy."));
        }
    }

    /** Refuses a paper that this program did not write. */
    static void check(Paper paper) {
        for (Paper.Line line : paper.lines()) {
            Said said = read(line.text());
            boolean isKnown = said.said() != null
                    && (paper.kind().equals(Papers.RESIDENT)
                            || VisitKinds.step(said.step()).isPresent())
                    && said.said().getOrDefault(Visit.REVISION, "0").matches("[0-9]{1,18}");
            if (!isKnown) {
                throw new ProblemException(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field(paper.name()),
                        "This line beside a house is none of this program's.",
                        "Take another copy."));
            }
        }
    }

    /** {@return what was said, white space around it off, what is empty left out} */
    static Map<String, String> checked(List<Field> fields, Map<String, String> said) {
        List<Problem> wrong = new ArrayList<>();
        List<String> names = fields.stream().map(Field::name).toList();
        said.keySet().stream()
                .filter(k -> !names.contains(k))
                .forEach(k -> wrong.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        Where.field(k),
                        "'" + k + "' is nothing that is said here.",
                        "There are " + String.join(", ", names) + ".")));
        Map<String, String> clean = new LinkedHashMap<>();
        for (Field f : fields) {
            String value = said.getOrDefault(f.name(), "").strip();
            if (value.isEmpty()) {
                if (f.needed()) {
                    wrong.add(wrong(ProblemKind.MISSING, f, f.label() + " is not said.", "Say it."));
                }
            } else if (value.length() > MOST) {
                wrong.add(wrong(
                        ProblemKind.TOO_LARGE, f, f.label() + " is too long.", "Say it in " + MOST + " letters."));
            } else if (!f.choices().isEmpty() && !f.choices().contains(value)) {
                wrong.add(wrong(
                        ProblemKind.BAD_VALUE,
                        f,
                        "'" + value + "' is none of what may be said.",
                        "There are " + String.join(", ", f.choices()) + "."));
            } else {
                clean.put(f.name(), value);
            }
        }
        if (!wrong.isEmpty()) {
            throw new ProblemException(wrong);
        }
        return clean;
    }

    private static Problem wrong(ProblemKind kind, Field f, String message, String cure) {
        return Problem.error(kind, Where.field(f.name()), message, cure);
    }
}
