package org.splicebook.rules;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.record.House;

/** Houses of the folder {@code cases}: a base in order, changed by paths such as {@code boxes.a.joints.hot}. */
final class Cases {
    private static final Path FOLDER = Path.of("src/test/resources/org/splicebook/rules/cases");

    /** What a rule has to do with a house. */
    enum Kind {
        FIRES,
        SILENT,
        ASKS
    }

    /**
     * One house for a rule.
     *
     * @param rule the rule
     * @param kind what it must do
     * @param pack the pack's word
     * @param house the house; null where there can be none
     * @param at what a finding must be about; empty where it does not matter
     * @param never why there can be no such house; empty where there is one
     */
    record Case(String rule, Kind kind, String pack, String base, Map<?, ?> set, String at, String never) {
        House house() {
            return Cases.house(base, set);
        }

        @Override
        public String toString() {
            return rule + " " + kind.name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    private Cases() {}

    static List<Case> all() {
        List<Case> all = new ArrayList<>();
        try (Stream<Path> files = Files.list(FOLDER)) {
            files.filter(f -> !String.valueOf(f.getFileName()).startsWith("base-"))
                    .sorted()
                    .forEach(f -> map(f).forEach((rule, said) -> add(all, String.valueOf(rule), (Map<?, ?>) said)));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return all;
    }

    private static void add(List<Case> all, String rule, Map<?, ?> said) {
        for (Kind kind : Kind.values()) {
            Object one = said.get(kind.name().toLowerCase(java.util.Locale.ROOT));
            if (one instanceof Map<?, ?> c) {
                all.add(new Case(
                        rule,
                        kind,
                        word(c, "pack", word(said, "pack", "2023")),
                        word(c, "base", word(said, "base", "us")),
                        c.get("set") instanceof Map<?, ?> set ? set : Map.of(),
                        word(c, "at", ""),
                        word(c, "never", "")));
            }
        }
    }

    private static String word(Map<?, ?> of, String key, String otherwise) {
        Object o = of.get(key);
        return o == null ? otherwise : String.valueOf(o);
    }

    /** {@return a base house with changes: a value set at each path, or taken out where it is {@code ~}} */
    static House house(String base, Map<?, ?> set) {
        Map<?, ?> house = map(FOLDER.resolve("base-" + base + ".yaml"));
        set.forEach((path, value) -> put(house, String.valueOf(path), Objects.requireNonNull(value)));
        for (String group : List.of("panels", "boxes")) {
            if (house.get(group) instanceof Map<?, ?> all) {
                all.values().forEach(each -> listJoints((Map<?, ?>) each));
            }
        }
        try {
            return HouseFiles.parse("case.yaml", new ObjectMapper().writeValueAsString(house))
                    .get();
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    @SuppressWarnings("unchecked")
    private static void listJoints(Map<?, ?> part) {
        if (part.get("joints") instanceof Map<?, ?> joints) {
            ((Map<String, Object>) part).put("joints", List.copyOf(joints.values()));
        }
    }

    @SuppressWarnings("unchecked")
    private static void put(Map<?, ?> house, String path, Object value) {
        Map<String, Object> at = (Map<String, Object>) house;
        List<String> keys = List.of(path.split("\\."));
        for (String key : keys.subList(0, keys.size() - 1)) {
            at = (Map<String, Object>) at.computeIfAbsent(key, k -> new LinkedHashMap<String, Object>());
        }
        String last = keys.get(keys.size() - 1);
        if ("~".equals(value)) {
            at.remove(last);
        } else {
            at.put(last, value);
        }
    }

    private static Map<?, ?> map(Path file) {
        try {
            return (Map<?, ?>) PlainYaml.strings(Files.readString(file));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
