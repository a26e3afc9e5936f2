package org.splicebook.housefile;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.record.TestResult;

/** Reads one sighting that a person types in a line: names and values as in a house file. */
public final class SightingLine {
    /** Keys whose value is a list; its entries stand with commas between. */
    private static final Set<String> LISTS = Set.of("with-off", "between", "went-out", "stayed", "traced");

    /** The key whose value is a map, written {@code foot:up,head:down}. */
    private static final String LEVERS = "levers";

    private static final Pattern LINE = Pattern.compile("^sightings\\[(\\d{1,6})]");

    private SightingLine() {}

    /**
     * {@return the sighting, its names resolved in the house}
     *
     * @param values by key, for example {@code with-off} to {@code main.6,main.8}
     */
    public static Result<Sighting> parse(House house, Map<String, String> values) {
        Result<List<Sighting>> all = parseAll(house, List.of(values));
        return all.isOk()
                ? all.map(s -> s.get(0))
                : new Result.Failed<>(
                        all.problems().stream().map(SightingLine::byKey).toList());
    }

    /**
     * {@return the sightings, their names resolved in the house; {@link #line} and {@link #key} tell what a problem is about}
     *
     * @param lines each by key
     */
    public static Result<List<Sighting>> parseAll(House house, List<Map<String, String>> lines) {
        return parsed(house.withSightings(List.of()), "sightings", lines).map(House::sightings);
    }

    /** {@return the outcome of a test, its names resolved in the house; the same keys as in a house file} */
    public static Result<TestResult> parseTest(House house, Map<String, String> values) {
        Result<House> read = parsed(house.withTests(List.of()), "tests", List.of(values));
        return read.isOk()
                ? read.map(h -> h.tests().get(0))
                : new Result.Failed<>(
                        read.problems().stream().map(SightingLine::byKey).toList());
    }

    private static Result<House> parsed(House bare, String section, List<Map<String, String>> lines) {
        String text = HouseWriter.write(bare) + "\n" + section + ":\n"
                + lines.stream()
                        .map(values -> "- {"
                                + values.entrySet().stream()
                                        .map(e -> quoted(e.getKey()) + ": " + value(e.getKey(), e.getValue()))
                                        .collect(Collectors.joining(", "))
                                + "}\n")
                        .collect(Collectors.joining());
        return HouseFiles.parse("sighting", text);
    }

    /** {@return which line a problem of {@link #parseAll} is about, from 0; -1 where it is about none} */
    public static int line(Problem p) {
        Matcher m = LINE.matcher(p.where().path());
        return m.find() ? Integer.parseInt(m.group(1)) : -1;
    }

    /** {@return which key of that line; empty where it is about the whole line} */
    public static String key(Problem p) {
        String path = p.where().path();
        Matcher m = LINE.matcher(path);
        return m.find() ? path.substring(m.end()).replaceFirst("^[.]", "").replaceFirst("[\\[.].*", "") : "";
    }

    private static String value(String key, String value) {
        if (LISTS.contains(key)) {
            return "[" + parts(value).map(SightingLine::quoted).collect(Collectors.joining(", ")) + "]";
        }
        if (key.equals(LEVERS)) {
            return "{"
                    + parts(value)
                            .map(p -> p.split(":", 2))
                            .map(p -> quoted(p[0]) + ": " + quoted(p.length == 2 ? p[1] : ""))
                            .collect(Collectors.joining(", "))
                    + "}";
        }
        return quoted(value);
    }

    private static Stream<String> parts(String value) {
        return Arrays.stream(value.split(",")).map(String::strip).filter(p -> !p.isEmpty());
    }

    private static String quoted(String text) {
        String escaped = text.replace("\\", "\\\\").replace("\"", "\\\"");
        String shown = escaped.codePoints()
                .map(c -> Character.isISOControl(c) ? ' ' : c)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
        return "\"" + shown + "\"";
    }

    /** The lines were those of the whole house; the key is good for the person too. */
    private static Problem byKey(Problem p) {
        String path = p.where().path();
        String key = path.replaceFirst("^[a-z]+\\[[0-9]+][.]?", "");
        return new Problem(p.kind(), p.severity(), Where.field(key), p.message(), p.cure());
    }
}
