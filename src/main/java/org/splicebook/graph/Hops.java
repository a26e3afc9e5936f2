package org.splicebook.graph;

import static java.util.Map.entry;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.neo4j.driver.Value;
import org.neo4j.driver.types.Relationship;
import org.splicebook.answer.Reason;
import org.splicebook.record.Basis;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Way;

/**
 * The hops of a way as properties of its relationship, and back. Kinds and bases are a letter for each hop: as lists of words they were
 * half of what a house takes on disk.
 */
final class Hops {
    static final String KINDS = "hopKinds";
    static final String NAMES = "hopNames";
    static final String BOXES = "hopBoxes";
    static final String BASES = "hopBases";

    private static final Map<ThingKind, Character> LETTERS = new EnumMap<>(Map.ofEntries(
            entry(ThingKind.SOURCE, 's'),
            entry(ThingKind.MAIN, 'm'),
            entry(ThingKind.BREAKER, 'b'),
            entry(ThingKind.POLE, 'p'),
            entry(ThingKind.BUS, 'u'),
            entry(ThingKind.BAR, 'n'),
            entry(ThingKind.LUG, 'l'),
            entry(ThingKind.CABLE, 'c'),
            entry(ThingKind.WIRE, 'w'),
            entry(ThingKind.WIRE_END, 'e'),
            entry(ThingKind.JOINT, 'j'),
            entry(ThingKind.DEVICE, 'd'),
            entry(ThingKind.TERMINAL, 't'),
            entry(ThingKind.METAL, 'x')));
    private static final Map<Character, ThingKind> KINDS_BY_LETTER =
            LETTERS.entrySet().stream().collect(Collectors.toUnmodifiableMap(Map.Entry::getValue, Map.Entry::getKey));
    private static final Map<Character, Basis> BASES_BY_LETTER =
            Stream.of(Basis.values()).collect(Collectors.toUnmodifiableMap(Hops::letter, b -> b));

    private Hops() {}

    /** {@return the properties that tell a way's hops, to be added to; none where no hop of it is known} */
    static Map<String, Object> of(Way way) {
        int hops = way.hops().size();
        if (hops == 0) {
            return new HashMap<>(); // Of a house that is half known there are thousands.
        }
        StringBuilder kinds = new StringBuilder(hops);
        StringBuilder bases = new StringBuilder(hops);
        List<String> names = new ArrayList<>(hops);
        List<String> boxes = new ArrayList<>(hops);
        for (Way.Hop h : way.hops()) {
            kinds.append(Objects.requireNonNull(LETTERS.get(h.thing().kind())).charValue());
            bases.append(letter(h.basis()));
            names.add(h.thing().name());
            boxes.add(h.box());
        }
        Map<String, Object> m = new HashMap<>();
        m.put(KINDS, kinds.toString());
        m.put(NAMES, names);
        m.put(BOXES, boxes);
        m.put(BASES, bases.toString());
        return m;
    }

    /**
     * {@return the hops of a stored way}
     *
     * @param colour the colour of a thing by kind and name; empty for what has none
     */
    static List<Reason.Step> steps(Relationship way, BiFunction<ThingKind, String, String> colour) {
        String kinds = way.get(KINDS).asString("");
        String bases = way.get(BASES).asString("");
        List<String> names = strings(way, NAMES);
        List<String> boxes = strings(way, BOXES);
        List<Reason.Step> steps = new ArrayList<>(names.size());
        for (int i = 0; i < names.size(); i++) {
            ThingKind kind = Objects.requireNonNull(KINDS_BY_LETTER.get(kinds.charAt(i)));
            Basis basis = Objects.requireNonNull(BASES_BY_LETTER.get(bases.charAt(i)));
            steps.add(new Reason.Step(kind, names.get(i), boxes.get(i), colour.apply(kind, names.get(i)), basis));
        }
        return steps;
    }

    /** {@return a list of texts on a way; empty where there is none} */
    static List<String> strings(Relationship way, String property) {
        return way.get(property).isNull() ? List.of() : way.get(property).asList(Value::asString);
    }

    private static char letter(Basis basis) {
        return basis.word().charAt(0);
    }
}
