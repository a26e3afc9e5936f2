package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import com.contrastsecurity.sarif.SarifSchema210;
import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Where;
import org.splicebook.record.Acceptance;
import org.splicebook.record.House;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Packs;

class SarifTest {
    private static final Path SAMPLE = Path.of("sample-house");

    private final House house = HouseFiles.read(SAMPLE).get();
    private final Map<String, Where> positions = HouseFiles.positions(SAMPLE);
    private final Checked checked = Checked.of(house, Packs.us(2023));
    private final JsonNode log = Json.read(Json.text(Sarif.write(checked, "1.2.3", positions)));

    @Test
    void logIsValidByThePublishedSchema() throws IOException {
        try (InputStream in = SarifSchema210.class.getResourceAsStream("/schema/sarif-schema-2.1.0.json")) {
            String schema = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            var errors = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_7)
                    .getSchema(schema)
                    .validate(log);
            assertThat(errors).isEmpty();
        }
    }

    @Test
    void everyFindingIsAResultOfItsRule() {
        JsonNode rules = log.at("/runs/0/tool/driver/rules");
        assertThat(log.at("/runs/0/results")).hasSize(checked.open().size());
        log.at("/runs/0/results")
                .forEach(r -> assertThat(rules.get(r.path("ruleIndex").asInt())
                                .path("id")
                                .asText())
                        .isEqualTo(r.path("ruleId").asText()));
    }

    /** A person who follows the location finds the thing's name on that line of that file. */
    @Test
    void locationIsWhereTheThingIsWritten() {
        int located = 0;
        for (JsonNode r : log.at("/runs/0/results")) {
            JsonNode at = r.at("/locations/0/physicalLocation");
            if (at.isMissingNode()) {
                continue;
            }
            located++;
            String subject = r.at("/partialFingerprints/finding~1v1").asText().split("/", 2)[1];
            String line = line(
                    at.at("/artifactLocation/uri").asText(),
                    at.at("/region/startLine").asInt());
            String name = line.substring(at.at("/region/startColumn").asInt() - 1)
                    .split(":")[0]
                    .trim();
            List<String> boxes = new java.util.ArrayList<>();
            r.at("/properties/boxes").forEach(b -> boxes.add(b.asText()));
            assertThat(subject.startsWith(name) || subject.contains("." + name) || boxes.contains(name))
                    .as(subject + " at " + name)
                    .isTrue();
        }
        assertThat(located).isGreaterThan(checked.open().size() * 9 / 10);
    }

    private static String line(String uri, int line) {
        try {
            Path file = Files.exists(Path.of(uri)) ? Path.of(uri) : SAMPLE.resolve(uri);
            return Files.readAllLines(file).get(line - 1);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void whatIsAcceptedIsSuppressed() {
        Finding f = checked.open().get(0);
        House accepting = house.withAccepted(
                List.of(new Acceptance(f.key(), f.certainty().word(), f.said(), "Known.", null, "2026-03-01")));
        JsonNode results = Json.read(Json.text(Sarif.write(Checked.of(accepting, Packs.us(2023)), "1", positions)))
                .at("/runs/0/results");
        List<JsonNode> suppressed = new java.util.ArrayList<>();
        results.forEach(r -> {
            if (r.has("suppressions")) {
                suppressed.add(r);
            }
        });
        assertThat(suppressed).hasSize(1);
        assertThat(suppressed.get(0).at("/partialFingerprints/finding~1v1").asText())
                .isEqualTo(f.key());
    }
}
