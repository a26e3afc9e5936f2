package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.splicebook.loadflow.CaseReader;
import org.splicebook.loadflow.LoadCase;
import org.splicebook.loadflow.LoadFlow;
import org.splicebook.loadflow.Report;
import org.splicebook.loadflow.ReportReader;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;

/** A body that says what state a house is in, in the words of the command {@code flow}, and what a report is to be told. */
final class FlowBody {
    private static final Set<String> OF_A_CASE =
            Set.of("case", "loads", "levers", "open", "close", "ohms", "faults", "ideal", "celsius");
    private static final Set<String> OF_A_REPORT = Set.of("about", "with", "readings");

    private final JsonNode body;
    private final List<Problem> problems = new ArrayList<>();

    /** A body; an empty one is the typical case. */
    FlowBody(String text) {
        body = text.isBlank() ? Json.object() : Json.read(text);
    }

    /**
     * {@return the state}
     *
     * @throws ProblemException with all that is wrong
     */
    LoadCase state(LoadFlow flow, boolean ofAReport) {
        Set<String> keys = new TreeSet<>(OF_A_CASE);
        if (ofAReport) {
            keys.addAll(OF_A_REPORT);
        }
        if (!body.isObject()) {
            wrong("", "The body is no object.", "Send an object; {} is the typical case.");
        }
        body.fieldNames().forEachRemaining(k -> {
            if (!keys.contains(k)) {
                problems.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        Where.field(k),
                        "There is no key '" + k + "' here.",
                        "There are " + String.join(", ", keys) + "."));
            }
        });
        CaseReader reader = new CaseReader(flow);
        text("case", reader::base);
        entries("loads", reader::load);
        entries("levers", reader::lever);
        entries("ohms", reader::ohms);
        items("open", reader::open);
        items("close", reader::close);
        items("faults", reader::fault);
        JsonNode ideal = body.path("ideal");
        if (!ideal.isMissingNode() && !ideal.isBoolean()) {
            wrong("ideal", "This is neither true nor false.", "Write true or false.");
        } else if (ideal.asBoolean()) {
            reader.ideal();
        }
        JsonNode celsius = body.path("celsius");
        if (celsius.isNumber()) {
            reader.celsius(celsius.asDouble());
        } else if (!celsius.isMissingNode()) {
            wrong("celsius", "This is no number.", "Write degrees Celsius: 30.");
        }
        var read = reader.read();
        problems.addAll(read.problems());
        stop();
        return read.get();
    }

    /**
     * {@return the report of that word on a state}
     *
     * @throws ProblemException with all that is wrong
     */
    Report<?> report(LoadFlow flow, String word, LoadCase state) {
        ReportReader reader = new ReportReader(flow);
        reader.report(word);
        text("about", reader::about);
        entries("with", reader::setting);
        items("readings", reader::reading);
        stop();
        return reader.read(state).get();
    }

    private void stop() {
        if (!problems.isEmpty()) {
            throw new ProblemException(problems);
        }
    }

    private void wrong(String field, String found, String cure) {
        problems.add(Problem.error(ProblemKind.BAD_VALUE, Where.field(field), found, cure));
    }

    private void text(String key, Consumer<String> take) {
        JsonNode node = body.path(key);
        if (node.isTextual()) {
            take.accept(node.asText());
        } else if (!node.isMissingNode()) {
            wrong(key, "This is no text.", "Write a string.");
        }
    }

    private void items(String key, Consumer<String> take) {
        JsonNode node = body.path(key);
        if (!node.isMissingNode() && !node.isArray()) {
            wrong(key, "This is no list.", "Write a list of strings.");
            return;
        }
        for (int i = 0; i < node.size(); i++) {
            if (node.get(i).isTextual()) {
                take.accept(node.get(i).asText());
            } else {
                wrong(key + "[" + i + "]", "This is no text.", "Write a string.");
            }
        }
    }

    private void entries(String key, BiConsumer<String, String> take) {
        JsonNode node = body.path(key);
        if (!node.isMissingNode() && !node.isObject()) {
            wrong(key, "This is no object.", "Write names and values.");
            return;
        }
        node.properties().forEach(e -> {
            if (e.getValue().isValueNode()) {
                take.accept(e.getKey(), e.getValue().asText());
            } else {
                wrong(key + "." + e.getKey(), "This is no single value.", "Write a string or a number.");
            }
        });
    }
}
