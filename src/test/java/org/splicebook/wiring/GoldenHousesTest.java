package org.splicebook.wiring;

import static java.util.stream.Collectors.toCollection;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.FailsafeSchema;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.problem.Result;
import org.splicebook.record.House;

/**
 * Small houses with what their wiring does, worked by hand: {@code golden/NAME.house.yaml} and {@code golden/NAME.expect.yaml}.
 *
 * <p>Every section of an expect file may be left out (then it is not checked); one that is there is checked exactly for each key it
 * names: nothing more, nothing less. Words are those of the enums in lower case with hyphens. In full:
 *
 * <pre>
 * why: One line, the ruling that decides.
 * load-points: [lamp, r.top, r.bottom]                 # every load point of the house
 * feeds: {lamp: {main.1: shown}, r.top: {}}            # by load point: poles, each must | shown | may, the strongest over its terminals
 * feeds-at: {heater.hot-1: {main.2: must}}             # the same by load terminal
 * source-poles: {lamp: {main.1: [service.l1]}}         # what each such pole's bus hangs on
 * supply: {lamp: once}                                 # short | twice | either | ring | once | none
 * returns: {lamp: {main.n: must}}                      # over neutral bars
 * returns-at: {lamp.neutral: {main.n: must}}           # the same by load terminal
 * over-ground: {lamp: {main.g: must}}                  # over ground bars
 * grounds: {lamp: {main.g: must}}                      # of the ground terminal
 * relies: {lamp: {hot: [breaker main.1, device s, wire K1.black, wire-end K1.black@1, joint b:K1.black, source service],
 *                 not-hot: [wire K2.red], neutral: [..], not-neutral: [..], ground: [..], not-ground: [..]}}
 *                                                      # these are / are not among what it relies on in every world (MUST)
 * protections: {lamp: {overcurrent: [main.1, main], ground-fault: [gf], arc-fault: [gf may]}}
 *                                                      # nearest first; a function not named: none; must unless "may" follows
 * wires: {K1.black: [hot main.1 must], K1.white: [neutral must], K2.red: []}
 * islands: [{landings: [..], wires: [..], poles: [..], load-points: [..]}]       # all of them; keys left out are not checked
 * crossings: [{kind: borrowed, poles: [..], load-points: [..], box: b, device: gf, sureness: shown}]   # likewise; [] for none
 * lost:                                                # each names a mode and a thing; rows exact, what is not named is kept,
 *   - {off-by-hand: main.1, rows: {lamp: {hot: lost}}} # must unless "sureness: may"; {} for no row at all;
 *   - {device-off: r, rows: {r.top: any}}              # "any" for a row or a conductor that is not to be judged
 * open-regions: [{boxes: [..], breakers: [..], load-points: [..]}]               # like islands
 * feeds-at-least: {lamp: [main.1, main.3 must]}        # where not all is known: among what may feed it, there at least so surely
 * not-feeds: {lamp: [main.5]}                          # feeds it in no world
 * no-must: [lamp]                                      # no feed or return of it is must, nor its reliance on a pole, wire, joint or device
 * relies-may: {lamp: {hot: [pole main.1]}}             # what it relies on in some world at least
 * crossings-at-least: [{kind: borrowed, poles: [main.1]}]  # each is matched by one crossing, whose lists may hold more
 * no-crossings: [multiwire]                            # kinds of which there is none
 * </pre>
 */
class GoldenHousesTest {
    private static final Path FOLDER = Path.of("src/test/resources/org/splicebook/golden");

    static List<String> houses() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            return files.map(p -> p.getFileName().toString())
                    .filter(n -> n.endsWith(".house.yaml"))
                    .map(n -> n.substring(0, n.length() - ".house.yaml".length()))
                    .sorted()
                    .toList();
        }
    }

    @ParameterizedTest
    @MethodSource("houses")
    void doesWhatWasWorkedOutByHand(String name) {
        Map<String, Object> expect = Yaml.map(yaml(read(name + ".expect.yaml")));
        Wiring wiring = derive(name, read(name + ".house.yaml"));
        GoldenSaid said = new GoldenSaid(wiring);
        List<String> wrong = new ArrayList<>();
        expect.forEach((section, value) -> check(said, section, value, wrong));
        assertThat(wrong).as("%s: %s", name, expect.get("why")).isEmpty();
    }

    private static void check(GoldenSaid said, String section, Object value, List<String> wrong) {
        switch (section) {
            case "why" -> {}
            case "load-points" -> same(section, new TreeSet<>(Yaml.words(value)), said.loadPoints(), wrong);
            case "islands", "crossings", "open-regions" ->
                sameList(section, Yaml.maps(value), said.list(section), wrong);
            case "lost" -> Yaml.maps(value).forEach(e -> checkLoss(said, e, wrong));
            case "relies" ->
                Yaml.map(value)
                        .forEach((lp, v) -> Yaml.map(v).forEach((of, things) -> {
                            boolean not = of.startsWith("not-");
                            var have = said.mustRely(lp, not ? of.substring(4) : of);
                            for (String thing : Yaml.words(things)) {
                                if (have.contains(thing) == not) {
                                    wrong.add(
                                            "relies " + lp + " " + of + ": " + thing + ", while it relies on " + have);
                                }
                            }
                        }));
            case "feeds-at-least", "not-feeds", "no-must", "relies-may", "crossings-at-least", "no-crossings" ->
                wrong.addAll(GoldenBounds.check(said, section, value));
            default ->
                Yaml.map(value).forEach((key, v) -> same(section + " " + key, plain(v), said.at(section, key), wrong));
        }
    }

    private static void checkLoss(GoldenSaid said, Map<String, Object> entry, List<String> wrong) {
        String mode = entry.keySet().stream()
                .filter(k -> !k.equals("rows"))
                .findFirst()
                .orElseThrow();
        String thing = String.valueOf(entry.get(mode));
        Map<String, Map<String, String>> have = said.lossRows(mode, thing);
        Map<String, Map<String, String>> want = new TreeMap<>();
        Yaml.map(entry.get("rows")).forEach((lp, v) -> {
            if (v.equals("any")) {
                have.remove(lp);
                return;
            }
            Map<String, String> row =
                    new TreeMap<>(Map.of("hot", "kept", "neutral", "kept", "ground", "kept", "sureness", "must"));
            Yaml.map(v).forEach((k, w) -> row.put(k, w.toString()));
            row.forEach((k, w) -> {
                if (w.equals("any") && have.containsKey(lp)) {
                    have.get(lp).put(k, "any");
                }
            });
            want.put(lp, row);
        });
        same("lost " + mode + " " + thing, want, have, wrong);
    }

    /** Each expected map must match its own one of those there: on every key it names. */
    private static void sameList(
            String section, List<Map<String, Object>> want, List<Map<String, Object>> have, List<String> wrong) {
        List<Map<String, Object>> left = new ArrayList<>(have);
        List<Map<String, Object>> missing = new ArrayList<>();
        for (Map<String, Object> w : want) {
            left.stream()
                    .filter(h -> w.entrySet().stream()
                            .allMatch(
                                    e -> unordered(e.getValue()).equals(unordered(h.getOrDefault(e.getKey(), "none")))))
                    .findFirst()
                    .ifPresentOrElse(left::remove, () -> missing.add(w));
        }
        if (!left.isEmpty() || !missing.isEmpty()) {
            wrong.add(section + ": missing " + missing + ", too much " + left);
        }
    }

    private static Object unordered(Object value) {
        return value instanceof List<?> list
                ? list.stream().map(String::valueOf).collect(toCollection(TreeSet::new))
                : value;
    }

    /** Lists are kept in order only where order is said (protections); those of wires are sorted on both sides. */
    private static Object plain(Object value) {
        if (value instanceof Map<?, ?> map) {
            Map<String, Object> sorted = new TreeMap<>();
            map.forEach((k, v) -> sorted.put(k.toString(), plain(v)));
            return sorted;
        }
        return value instanceof List<?> list
                ? list.stream().map(String::valueOf).toList()
                : value;
    }

    private static void same(String what, Object want, Object have, List<String> wrong) {
        Object expected = what.startsWith("wires ") ? unordered(want) : want;
        if (!expected.equals(have)) {
            wrong.add(what + ": expected " + expected + ", got " + have);
        }
    }

    private static Wiring derive(String name, String text) {
        Result<House> house = HouseFiles.parse(name + ".house.yaml", text);
        assertThat(house.problems())
                .as("%s is a house file without fault", name)
                .isEmpty();
        return Derivation.derive(house.get());
    }

    private static String read(String file) {
        try {
            return Files.readString(FOLDER.resolve(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Object yaml(String text) {
        return new Load(LoadSettings.builder().setSchema(new FailsafeSchema()).build()).loadFromString(text);
    }

    /** Reads of a YAML tree in which every scalar is a string. */
    static final class Yaml {
        static Map<String, Object> map(Object value) {
            Map<String, Object> map = new TreeMap<>();
            ((Map<?, ?>) value).forEach((k, v) -> map.put(k.toString(), v));
            return map;
        }

        static List<Map<String, Object>> maps(Object value) {
            return ((List<?>) value).stream().map(Yaml::map).toList();
        }

        static List<String> words(Object value) {
            return ((List<?>) value).stream().map(String::valueOf).toList();
        }
    }
}
