package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.wiring.GoldenHousesTest.Yaml;

/** The sections of an expect file that bound what is derived from one side only; see {@link GoldenHousesTest}. */
final class GoldenBounds {
    private GoldenBounds() {}

    /** What is wrong, in words. */
    static List<String> check(GoldenSaid said, String section, Object value) {
        List<String> wrong = new ArrayList<>();
        switch (section) {
            case "feeds-at-least" ->
                Yaml.map(value).forEach((lp, v) -> {
                    Map<?, ?> have = (Map<?, ?>) said.at("feeds", lp);
                    for (String feed : Yaml.words(v)) {
                        String[] parts = feed.split(" ");
                        Object sureness = have.get(parts[0]);
                        if (sureness == null || parts.length > 1 && rank(sureness) > rank(parts[1])) {
                            wrong.add("feeds-at-least " + lp + ": " + feed + ", got " + have);
                        }
                    }
                });
            case "not-feeds" ->
                Yaml.map(value).forEach((lp, v) -> {
                    Map<?, ?> have = (Map<?, ?>) said.at("feeds", lp);
                    Yaml.words(v).stream()
                            .filter(have::containsKey)
                            .forEach(pole -> wrong.add("not-feeds " + lp + ": " + pole + ", got " + have));
                });
            case "no-must" ->
                Yaml.words(value).stream()
                        .filter(lp -> !said.sure(lp).isEmpty())
                        .forEach(lp -> wrong.add("no-must " + lp + ": " + said.sure(lp)));
            case "relies-may" ->
                Yaml.map(value)
                        .forEach((lp, v) -> Yaml.map(v).forEach((conductor, things) -> {
                            var have = said.mayRely(lp, conductor);
                            Yaml.words(things).stream()
                                    .filter(t -> !have.contains(t))
                                    .forEach(t -> wrong.add(
                                            "relies-may " + lp + " " + conductor + ": " + t + ", got " + have));
                        }));
            case "crossings-at-least" -> {
                var have = said.list("crossings");
                Yaml.maps(value).stream()
                        .filter(w -> have.stream().noneMatch(h -> holds(h, w)))
                        .forEach(w -> wrong.add("crossings-at-least: missing " + w + ", got " + have));
            }
            case "no-crossings" -> {
                List<String> kinds = Yaml.words(value);
                said.list("crossings").stream()
                        .filter(h -> kinds.contains(h.get("kind")))
                        .forEach(h -> wrong.add("no-crossings: " + h));
            }
            default -> throw new IllegalArgumentException("no such section: " + section);
        }
        return wrong;
    }

    private static boolean holds(Map<String, Object> have, Map<String, Object> want) {
        return want.entrySet().stream().allMatch(e -> {
            Object there = have.get(e.getKey());
            return there instanceof List<?> list
                    ? list.containsAll(Yaml.words(e.getValue()))
                    : e.getValue().equals(there);
        });
    }

    private static int rank(Object sureness) {
        return Sureness.valueOf(sureness.toString().toUpperCase(Locale.ROOT)).ordinal();
    }
}
