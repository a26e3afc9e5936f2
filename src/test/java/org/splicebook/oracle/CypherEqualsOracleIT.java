package org.splicebook.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.graph.Stores;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.store.HouseStore;
import org.splicebook.store.RecordText;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.Sureness;

/**
 * What the questions answer, laid beside what the oracle floods for itself. {@code -Doracle.seed=N} asks of one house only. Five hundred:
 * {@code mvn verify -Dit.test=CypherEqualsOracleIT -Dtest=none -Dsurefire.failIfNoSpecifiedTests=false -Doracle.houses=500}.
 */
class CypherEqualsOracleIT {
    private static final Map<LossMode, String> HOW = Map.of(
            LossMode.OFF_BY_HAND, "off",
            LossMode.TRIPS, "trip",
            LossMode.ONE_POLE_OPEN, "open",
            LossMode.GUARD_OPENS, "trip",
            LossMode.SWITCH_FAILS, "fails",
            LossMode.JOINT_LOST, "lost",
            LossMode.WIRE_END_LOST, "lost",
            LossMode.DEVICE_OFF, "off",
            LossMode.CABLE_CUT, "cut",
            LossMode.SOURCE_LOST, "lost");
    /** How many things, devices and load points of a house are asked about; all of a large house would take minutes. */
    private static final int ASKED = 40;

    @TempDir
    static Path folder;

    static HouseStore store;

    private final List<String> differences = new ArrayList<>();

    @BeforeAll
    static void open() {
        store = Stores.embedded(folder, new Remembered(), Clock.systemUTC(), Derivation::derive);
    }

    @AfterAll
    static void close() {
        store.close();
    }

    @Test
    void answersOnRandomHousesAreTheOracles() {
        long seed = Long.getLong("oracle.seed", -1);
        long houses = Long.getLong("oracle.houses", 20);
        compare(seed < 0 ? 0 : seed, seed < 0 ? houses : seed + 1);
    }

    private void compare(long from, long to) {
        long tangled = 0;
        for (long seed = from; seed < to; seed++) {
            House house = RandomHouses.house(seed, Shape.of(seed));
            Facts facts;
            try {
                facts = Oracle.facts(house);
            } catch (World.TooMany e) {
                tangled++;
                continue;
            }
            store.put(house, 0, "oracle", "test").get();
            int before = differences.size();
            compare(house, facts, new Random(seed));
            if (differences.size() > before) {
                differences.add(before, "house of seed " + seed + ", -Doracle.seed=" + seed + ":");
            }
        }
        assertThat(differences.stream().limit(40)).isEmpty();
        assertThat(tangled).as("houses too tangled for the oracle").isLessThanOrEqualTo((to - from) / 10 + 1);
    }

    private void compare(House house, Facts facts, Random random) {
        Map<String, Map<String, String>> losses = new TreeMap<>();
        Map<String, Map<String, String>> protectedBy = new TreeMap<>();
        Map<String, Map<String, Boolean>> feeds = new TreeMap<>();
        Set<String> crossings = new TreeSet<>();
        facts.lines.forEach((line, value) -> {
            String[] w = line.split(" ");
            switch (w[0]) {
                case "loss" ->
                    losses.computeIfAbsent(w[1] + " " + w[3].replaceAll(":$", ""), k -> new TreeMap<>())
                            .put(w[4], value);
                case "protected" ->
                    protectedBy
                            .computeIfAbsent(w[4], k -> new TreeMap<>())
                            .merge(
                                    w[1],
                                    value.equals("MUST") ? "SHOWN" : "POSSIBLE",
                                    (a, b) -> a.equals("SHOWN") ? a : b);
                case "feed" ->
                    feeds.computeIfAbsent(w[1], k -> new TreeMap<>())
                            .merge(breaker(house, w[2]), !value.equals(Sureness.MAY.name()), Boolean::logicalOr);
                case "crossing", "neutral-to-ground" -> crossings.add(line);
                default -> {}
            }
        });
        for (String loss : some(losses.keySet(), random)) {
            String[] w = loss.split(" ");
            String how = HOW.get(LossMode.valueOf(w[0]));
            Answer answer = ask(house, "what-goes-off", Map.of("thing", w[1], "how", how));
            equal(loss, losses.get(loss), told(answer, r -> cells(r, "hot", "neutral", "ground")));
        }
        for (String by : some(protectedBy.keySet(), random)) {
            Answer answer = ask(house, "relies-on-device", Map.of("device", by));
            equal(
                    "relies on " + by,
                    protectedBy.get(by),
                    told(answer, r -> r.status().name()));
        }
        for (String point : some(feeds.keySet(), random)) {
            Answer answer = ask(house, "shares-breaker", Map.of("point", point));
            equal(
                    "shares with " + point,
                    shared(feeds, point),
                    told(answer, r -> r.status().name()));
        }
        Answer crossing = ask(house, "neutral-crossings", Map.of());
        equal("crossings", asMap(crossings), asMap(said(crossing)));
    }

    /** What shares a breaker, from who is fed by which: shown where both are sure. */
    private static Map<String, String> shared(Map<String, Map<String, Boolean>> feeds, String point) {
        Map<String, String> shared = new TreeMap<>();
        feeds.forEach((other, breakers) -> breakers.forEach((breaker, sure) -> {
            Boolean mine = feeds.get(point).get(breaker);
            if (mine != null && !other.equals(point)) {
                shared.merge(other, mine && sure ? "SHOWN" : "POSSIBLE", (a, b) -> a.equals("SHOWN") ? a : b);
            }
        }));
        return shared;
    }

    private static Set<String> said(Answer crossings) {
        Set<String> lines = new TreeSet<>();
        for (Row r : crossings.rows()) {
            String kind = constant(r.columns().get("kind"));
            if (kind.equals("NEUTRAL_TO_GROUND")) {
                lines.add("neutral-to-ground " + r.columns().get("box"));
            } else if (kind.equals("ACROSS_PROTECTION")) {
                list(r, "points")
                        .forEach(p -> lines.add(
                                "crossing ACROSS_PROTECTION " + r.columns().get("device") + " load " + p));
            } else {
                String head = "crossing " + kind + " " + r.columns().get("island");
                list(r, "poles").forEach(p -> lines.add(head + " pole " + p));
                list(r, "points").forEach(p -> lines.add(head + " load " + p));
            }
        }
        return lines;
    }

    private static List<?> list(Row r, String column) {
        return (List<?>) r.columns().getOrDefault(column, List.of());
    }

    private static Map<String, String> told(Answer answer, java.util.function.Function<Row, String> value) {
        return answer.rows().stream()
                .filter(r -> r.status() != Row.Status.EXCLUDED)
                .collect(Collectors.toMap(Row::subject, value, (a, b) -> a + " and " + b, TreeMap::new));
    }

    private static String cells(Row r, String... columns) {
        return List.of(columns).stream().map(c -> constant(r.columns().get(c))).collect(Collectors.joining("/"));
    }

    private static String constant(Object word) {
        return String.valueOf(word).toUpperCase(Locale.ROOT).replace('-', '_');
    }

    private static String breaker(House house, String pole) {
        String panel = pole.substring(0, pole.indexOf('.'));
        String space = pole.substring(pole.indexOf('.') + 1);
        return house.panels().get(panel).breakers().values().stream()
                .filter(b -> b.spaces().contains(space))
                .map(b -> panel + "." + b.key())
                .findFirst()
                .orElse(pole);
    }

    private static List<String> some(Collection<String> names, Random random) {
        List<String> all = new ArrayList<>(names);
        Collections.shuffle(all, random);
        return all.subList(0, Math.min(ASKED, all.size()));
    }

    private static Map<String, String> asMap(Set<String> lines) {
        return lines.stream().collect(Collectors.toMap(l -> l, l -> "", (a, b) -> a, TreeMap::new));
    }

    private static Answer ask(House house, String question, Map<String, String> parameters) {
        return (Answer) store.ask(question, house.id(), parameters).get();
    }

    private void equal(String what, Map<String, String> oracle, Map<String, String> answered) {
        if (!oracle.equals(answered)) {
            Set<String> names = new TreeSet<>(oracle.keySet());
            names.addAll(answered.keySet());
            names.removeIf(n -> String.valueOf(oracle.get(n)).equals(String.valueOf(answered.get(n))));
            names.forEach(n -> differences.add(
                    what + ": " + n + " is " + oracle.get(n) + " by the oracle, answered " + answered.get(n)));
        }
    }

    /** Keeps records in memory: only the graph is asked. */
    private static final class Remembered implements RecordText {
        private final Map<String, House> houses = new ConcurrentHashMap<>();

        @Override
        public String write(House house) {
            houses.put(house.id(), house);
            return house.id();
        }

        @Override
        public String writeProperty(Property property) {
            return PropertyFiles.write(property);
        }

        @Override
        public Property readProperty(String text) {
            return PropertyFiles.parse("test", text).get().property();
        }

        @Override
        public House read(String text) {
            return houses.get(text);
        }

        @Override
        public String write(Draft draft) {
            throw new UnsupportedOperationException("no drafts here");
        }

        @Override
        public Draft readDraft(String text) {
            throw new UnsupportedOperationException("no drafts here");
        }
    }
}
