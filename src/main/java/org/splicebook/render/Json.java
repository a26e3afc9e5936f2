package org.splicebook.render;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.UncheckedIOException;
import java.util.Collection;
import java.util.function.Function;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/** JSON text and trees, with one set of limits. */
public final class Json {
    private static final int DEEPEST = 100;

    private static final ObjectMapper MAPPER = new ObjectMapper(JsonFactory.builder()
                    .streamReadConstraints(StreamReadConstraints.builder()
                            .maxNestingDepth(DEEPEST)
                            .build())
                    .build())
            .enable(SerializationFeature.INDENT_OUTPUT);

    private Json() {}

    /** {@return a new empty object} */
    public static ObjectNode object() {
        return MAPPER.createObjectNode();
    }

    /** {@return maps, lists, strings, numbers and booleans as a tree} */
    public static JsonNode tree(Object plain) {
        return MAPPER.valueToTree(plain);
    }

    /** {@return the tree as maps, lists, strings, numbers and booleans} */
    public static Object plain(JsonNode tree) {
        return MAPPER.convertValue(tree, Object.class);
    }

    /** {@return a list of trees, one for each} */
    public static <T> ArrayNode list(Collection<T> all, Function<? super T, ? extends JsonNode> each) {
        ArrayNode list = MAPPER.createArrayNode();
        all.forEach(x -> list.add(each.apply(x)));
        return list;
    }

    /** {@return the tree as indented text} */
    public static String text(JsonNode tree) {
        try {
            return MAPPER.writeValueAsString(tree);
        } catch (JsonProcessingException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * {@return the text as a tree}
     *
     * @throws ProblemException when it is not JSON
     */
    public static JsonNode read(String text) {
        try {
            return MAPPER.readTree(text);
        } catch (JsonProcessingException e) {
            int line = e.getLocation() == null ? 0 : e.getLocation().getLineNr();
            int column = e.getLocation() == null ? 0 : e.getLocation().getColumnNr();
            throw new ProblemException(Problem.error(
                    ProblemKind.SYNTAX,
                    new Where(null, line, column, ""),
                    "This is not JSON: " + e.getOriginalMessage() + ".",
                    "Send one JSON value."));
        }
    }
}
