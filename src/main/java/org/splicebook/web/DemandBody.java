package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.IntConsumer;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.DemandStudy;
import org.splicebook.panelplan.RecordedDwelling;
import org.splicebook.panelplan.TellReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;
import org.splicebook.wiring.Derivation;

/** A body that says what a load calculation is to go by beside the record, in the words of the command {@code demand}. */
final class DemandBody {
    private static final Set<String> KEYS = new TreeSet<>(Set.of(
            "area",
            "small-appliance",
            "laundry",
            "rating",
            "nameplates",
            "add",
            "without",
            "all-listed",
            "peak",
            "intervals",
            "raise",
            "season",
            "method",
            "edition",
            "units"));

    private final JsonNode body;
    private final List<Problem> problems = new ArrayList<>();

    /** A body; an empty one says nothing. */
    DemandBody(String text) {
        body = text.isBlank() ? Json.object() : Json.read(text);
    }

    /**
     * {@return the study of a house}
     *
     * @throws ProblemException with all that is wrong
     */
    DemandStudy study(House house) {
        TellReader reader = new TellReader(house);
        tell(reader);
        var told = reader.read();
        Result<DemandStudy.Wanted> wanted = wanted(house, reader);
        problems.addAll(told.problems());
        problems.addAll(wanted.problems());
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return DemandStudy.of(RecordedDwelling.of(Derivation.derive(house), told.get()), wanted.get());
    }

    /** {@return what is wrong with the body's shape, after telling a reader what it says} */
    List<Problem> tell(TellReader reader) {
        if (!body.isObject()) {
            bad("", "The body is no object.", "Send an object; {} says nothing beside the record.");
        }
        body.fieldNames().forEachRemaining(k -> {
            if (!KEYS.contains(k)) {
                problems.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        Where.field(k),
                        "There is no key '" + k + "' here.",
                        "There are " + String.join(", ", KEYS) + "."));
            }
        });
        text("area", reader::area);
        text("rating", reader::rating);
        text("peak", reader::peak);
        text("raise", reader::raise);
        text("season", reader::season);
        text("intervals", csv -> reader.intervals("intervals", csv));
        number("small-appliance", reader::smallAppliance);
        number("laundry", reader::laundry);
        nameplates(reader);
        items("add", reader::add);
        items("without", reader::without);
        flag(reader);
        return problems;
    }

    private Result<DemandStudy.Wanted> wanted(House house, TellReader reader) {
        String[] method = new String[1];
        Integer[] edition = new Integer[1];
        int[] units = new int[1];
        text("method", m -> method[0] = m);
        number("edition", e -> edition[0] = e);
        number("units", u -> units[0] = u);
        @Nullable String said = method[0];
        @Nullable Integer year = edition[0];
        return DemandStudy.Wanted.read(house, said, year, reader.metering(), units[0]);
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }

    private void flag(TellReader reader) {
        JsonNode node = body.path("all-listed");
        if (!node.isMissingNode() && !node.isBoolean()) {
            bad("all-listed", "This is neither true nor false.", "Write true or false.");
        } else if (node.asBoolean()) {
            reader.allListed();
        }
    }

    private void text(String key, Consumer<String> take) {
        JsonNode node = body.path(key);
        if (node.isTextual()) {
            take.accept(node.asText());
        } else if (!node.isMissingNode()) {
            bad(key, "This is no text.", "Write a string.");
        }
    }

    private void number(String key, IntConsumer take) {
        JsonNode node = body.path(key);
        if (node.canConvertToInt() && node.isIntegralNumber()) {
            take.accept(node.asInt());
        } else if (!node.isMissingNode()) {
            bad(key, "This is no whole number.", "Write a whole number.");
        }
    }

    private void items(String key, Consumer<String> take) {
        JsonNode node = body.path(key);
        if (!node.isMissingNode() && !node.isArray()) {
            bad(key, "This is no list.", "Write a list of strings.");
            return;
        }
        for (int i = 0; i < node.size(); i++) {
            if (node.get(i).isTextual()) {
                take.accept(node.get(i).asText());
            } else {
                bad(key + "[" + i + "]", "This is no text.", "Write a string.");
            }
        }
    }

    private void nameplates(TellReader reader) {
        JsonNode node = body.path("nameplates");
        if (!node.isMissingNode() && !node.isObject()) {
            bad("nameplates", "This is no object.", "Write devices and sizes: {\"range\": \"12 kW\"}.");
            return;
        }
        node.properties().forEach(e -> {
            if (e.getValue().isTextual()) {
                reader.nameplate(e.getKey(), e.getValue().asText());
            } else {
                bad("nameplates." + e.getKey(), "This is no text.", "Write a size with its unit: \"12 kW\".");
            }
        });
    }
}
