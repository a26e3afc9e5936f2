package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The published JSON Schema and the reader say the same. */
class SchemaTest {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Schema SCHEMA = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(HouseFiles.schema());

    static List<Path> houses() throws IOException {
        return RoundTripTest.houses();
    }

    @ParameterizedTest
    @MethodSource("houses")
    void everyHouseThatIsReadFitsTheSchema(Path file) throws IOException {
        String text = Files.readString(file);
        assertThat(SCHEMA.validate(json(node(text)))).isEmpty();
        String written = HouseWriter.write(HouseFiles.parse("f", text).get());
        assertThat(SCHEMA.validate(json(node(written)))).isEmpty();
    }

    @Test
    void whatTheReaderRefusesByItsFormDoesNotFitTheSchema() throws IOException {
        assertThat(errors("{\"splicebook\": 1, \"house\": \"a\"}")).isEmpty();
        assertThat(errors("{\"splicebook\": 1, \"house\": \"a\", \"pannels\": {}}"))
                .isNotEmpty();
        assertThat(errors("{\"splicebook\": 2, \"house\": \"a\"}")).isNotEmpty();
        assertThat(errors("{\"splicebook\": 1, \"house\": \"a\", \"area\": \"62 A\"}"))
                .isNotEmpty();
        assertThat(errors("{\"splicebook\": 1, \"house\": \"a\", \"boxes\": {\"a.b\": {}}}"))
                .isNotEmpty();
    }

    @Test
    void everyKeyOfTheSchemaIsReadAndWritten() {
        Set<String> written = new TreeSet<>();
        keys(node(HouseWriter.write(Fixtures.house("everything.yaml"))), written);
        Set<String> known = new TreeSet<>();
        for (String shape : Shapes.all()) {
            known.addAll(Shapes.keys(shape));
        }
        assertThat(written).containsAll(known);
    }

    @Test
    void theWordsOfTheSchemaAreThoseOfTheReader() throws IOException {
        JsonNode defs = JSON.readTree(HouseFiles.schema()).get("$defs");
        Map<String, Set<String>> both = Map.of(
                "/cable/properties/kind", Words.CABLE_KIND.keySet(),
                "/place/properties/kind", Words.PLACE_KIND.keySet(),
                "/source/properties/kind", Words.SOURCE_KIND.keySet(),
                "/source/properties/system", Words.SYSTEM.keySet(),
                "/joint-map/properties/by", Words.BY.keySet(),
                "/reading", Words.READING.keySet(),
                "/basis", Words.BASIS.keySet(),
                "/position", Words.POSITION.keySet(),
                "/material", Words.MATERIAL.keySet(),
                "/device/properties/terminals/additionalProperties", Words.ROLE.keySet());
        both.forEach((at, words) -> assertThat(words(defs.at(at))).as(at).isEqualTo(words));
        assertThat(words(defs.at("/protects/items"))).isEqualTo(Words.BESIDE_OVERCURRENT.keySet());
        assertThat(words(defs.at("/link/properties/when"))).isEqualTo(Words.WHEN.keySet());
        assertThat(words(defs.at("/guard/properties/reversed"))).isEqualTo(Words.REVERSED.keySet());
        assertThat(words(defs.at("/guard/properties/functions/items"))).isEqualTo(Words.PROTECTION.keySet());
        assertThat(words(defs.at("/box/properties/complete/items"))).isEqualTo(Words.COMPLETE.keySet());
    }

    private static List<com.networknt.schema.Error> errors(String json) throws IOException {
        return SCHEMA.validate(JSON.readTree(json));
    }

    private static Set<String> words(JsonNode of) {
        Set<String> words = new TreeSet<>();
        of.get("enum").forEach(w -> words.add(w.asText()));
        return words;
    }

    private static Node node(String text) {
        return YamlReader.read("f", text, Limits.NODES, new Problems()).orElseThrow();
    }

    private static void keys(Node n, Set<String> keys) {
        if (n instanceof Node.Entries map) {
            for (Node.Entry e : map.entries()) {
                keys.add(e.key().text());
                keys(e.value(), keys);
            }
        } else if (n instanceof Node.Items list) {
            list.items().forEach(i -> keys(i, keys));
        }
    }

    /** What a YAML file is as JSON when every scalar is a string. */
    private static JsonNode json(Node n) {
        if (n instanceof Node.Entries map) {
            ObjectNode o = JSON.createObjectNode();
            map.entries().forEach(e -> o.set(e.key().text(), json(e.value())));
            return o;
        }
        if (n instanceof Node.Items list) {
            ArrayNode a = JSON.createArrayNode();
            list.items().forEach(i -> a.add(json(i)));
            return a;
        }
        Node.Scalar s = (Node.Scalar) n;
        return s.isNothing() ? JSON.nullNode() : JSON.getNodeFactory().textNode(s.text());
    }
}
