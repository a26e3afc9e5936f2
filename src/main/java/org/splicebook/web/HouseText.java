package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.Json;

/** Houses and sightings in the forms that travel: the house file's YAML, and the same keys as JSON. */
final class HouseText {
    private static final String SIGHTINGS = "sightings";

    private HouseText() {}

    static Result<House> parse(String text) {
        return HouseFiles.parse("body", text);
    }

    static String write(House house, Body.Format format) {
        String yaml = HouseWriter.write(house);
        return format == Body.Format.YAML ? yaml : Json.text(Json.tree(PlainYaml.strings(yaml)));
    }

    /**
     * {@return the house with something written into it, read as a house file is, so that what is wrong is the reader's to say}
     *
     * @param change writes into the whole record, as a house file's map
     */
    static House with(House house, Consumer<Map<String, Object>> change) {
        Map<String, Object> whole = whole(house);
        change.accept(whole);
        return HouseFiles.parse("", Json.text(Json.tree(whole))).get();
    }

    /** {@return what stands under a key, to be written into; nothing yet where it was not there} */
    static Map<String, Object> map(Map<String, Object> in, String key) {
        Map<String, Object> map = new LinkedHashMap<>();
        if (in.get(key) instanceof Map<?, ?> m) {
            m.forEach((k, v) -> map.put(String.valueOf(k), v));
        }
        in.put(key, map);
        return map;
    }

    private static Map<String, Object> whole(House house) {
        Map<String, Object> whole = new LinkedHashMap<>();
        if (PlainYaml.strings(HouseWriter.write(house)) instanceof Map<?, ?> m) {
            m.forEach((k, v) -> whole.put(String.valueOf(k), v));
        }
        return whole;
    }

    /** {@return sightings as JSON, with the keys of a house file} */
    static JsonNode write(House house, List<Sighting> sightings) {
        House only = house.withSightings(sightings);
        JsonNode tree = Json.tree(PlainYaml.strings(HouseWriter.write(only)));
        return tree.path(SIGHTINGS).isArray()
                ? tree.path(SIGHTINGS)
                : Json.list(List.<Sighting>of(), s -> Json.object());
    }

    /** {@return the sightings of a body, a list as in a house file, their names resolved in the house} */
    static Result<List<Sighting>> parse(House house, String text) {
        JsonNode list = Json.read(text);
        if (!list.isArray()) {
            return Result.failed(Failures.problem(
                    ProblemKind.BAD_VALUE,
                    "The body is not a list.",
                    "Send a list of sightings: [{\"id\": ...}, ...]."));
        }
        Map<String, Object> whole = whole(house.withSightings(List.of()));
        whole.put(SIGHTINGS, list);
        Result<House> read = parse(Json.text(Json.tree(whole)));
        return read.isOk()
                ? read.map(House::sightings)
                : new Result.Failed<>(
                        read.problems().stream().map(HouseText::byPath).toList());
    }

    /** The lines were those of the whole house, which the sender does not have; the path is good for both. */
    private static Problem byPath(Problem p) {
        return new Problem(p.kind(), p.severity(), Where.field(p.where().path()), p.message(), p.cure());
    }
}
