package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.upgrade.Prices;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.panelplan.upgrade.WantedReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.render.Json;

/** A body that says what is wanted of a new panel, in the words of the command {@code plan}. */
final class PlanBody {
    /** A server searches no longer than this for one request, in seconds. */
    private static final double MOST_SECONDS = 10;

    private static final Set<String> KEYS = new TreeSet<>(Set.of(
            "panel",
            "of",
            "protect",
            "locks",
            "keep",
            "entry",
            "slack",
            "lower",
            "backfeed",
            "places",
            "lengths",
            "seconds",
            "prices",
            "told"));

    private final JsonNode body;
    private final List<Problem> problems = new ArrayList<>();

    PlanBody(String text) {
        body = text.isBlank() ? Json.object() : Json.read(text);
    }

    /**
     * {@return what is wanted}
     *
     * @throws ProblemException with all that is wrong
     */
    Wanted wanted(House house) {
        if (!body.isObject()) {
            bad("", "The body is no object.", "Send an object: {\"panel\": \"200-40\"}.");
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
        TellReader loads = new TellReader(house);
        if (body.has("told")) {
            problems.addAll(new DemandBody(body.path("told").toString()).tell(loads));
        }
        String[] names = {"", ""};
        text("panel", s -> names[0] = s);
        text("of", s -> names[1] = s);
        WantedReader reader = new WantedReader(house, names[0], names[1].isEmpty() ? null : names[1], loads);
        text("protect", reader::protect);
        text("entry", reader::entry);
        text("slack", reader::slack);
        text("lower", reader::lower);
        text("backfeed", reader::backfeed);
        pairs("locks", reader::lock);
        pairs("places", reader::place);
        pairs("lengths", reader::length);
        kept(reader);
        text("prices", s -> problems.addAll(Prices.read("prices", s).problems()));
        seconds(reader);
        Result<Wanted> read = reader.read();
        problems.addAll(read.problems());
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
        return read.get();
    }

    /**
     * {@return the price list}
     *
     * @throws ProblemException with every line that is none
     */
    Prices prices() {
        String[] list = {""};
        text("prices", s -> list[0] = s);
        return list[0].isEmpty()
                ? Prices.none()
                : Prices.read("prices", list[0]).get();
    }

    private void seconds(WantedReader reader) {
        JsonNode node = body.path("seconds");
        if (node.isNumber() && node.asDouble() <= MOST_SECONDS) {
            reader.seconds(node.asDouble());
        } else if (!node.isMissingNode()) {
            bad("seconds", "This is no time that a server searches.", "Write a number up to " + MOST_SECONDS + ".");
        }
    }

    private void kept(WantedReader reader) {
        JsonNode node = body.path("keep");
        boolean isList = node.isArray();
        for (int i = 0; isList && i < node.size(); i++) {
            isList = node.get(i).canConvertToInt() && node.get(i).isIntegralNumber();
        }
        if (isList) {
            node.forEach(n -> reader.keep(n.asInt()));
        } else if (!node.isMissingNode()) {
            bad("keep", "This is no list of spaces.", "Write a list of whole numbers.");
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

    private void pairs(String key, BiConsumer<String, String> take) {
        JsonNode node = body.path(key);
        if (!node.isMissingNode() && !node.isObject()) {
            bad(key, "This is no object.", "Write names and strings.");
            return;
        }
        node.properties().forEach(e -> {
            if (e.getValue().isTextual()) {
                take.accept(e.getKey(), e.getValue().asText());
            } else {
                bad(key + "." + e.getKey(), "This is no text.", "Write a string.");
            }
        });
    }

    private void bad(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }
}
