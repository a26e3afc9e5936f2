package org.splicebook.property;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.StoredProperty;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/** A property with the records of its parts, each read and derived when it is first needed. */
public final class Joined {
    private final StoredProperty stored;
    private final Function<String, Optional<StoredHouse>> records;
    private final Function<StoredHouse, Wiring> derivation;
    private final Map<String, Optional<StoredHouse>> read = new HashMap<>();
    private final Map<String, Wiring> derived = new HashMap<>();

    /**
     * Joins a property's parts.
     *
     * @param stored the property
     * @param records finds a stored house by its id
     * @param derivation what the wiring of a record does
     */
    public Joined(
            StoredProperty stored,
            Function<String, Optional<StoredHouse>> records,
            Function<StoredHouse, Wiring> derivation) {
        this.stored = stored;
        this.records = records;
        this.derivation = derivation;
    }

    StoredProperty stored() {
        return stored;
    }

    Property property() {
        return stored.property();
    }

    Property.Part part(String name) {
        Property.Part part = property().parts().get(name);
        if (part == null) {
            throw new IllegalArgumentException(name);
        }
        return part;
    }

    /** {@return the record of a part, if it is stored} */
    Optional<House> house(String part) {
        return record(part(part).house()).map(StoredHouse::house);
    }

    Optional<StoredHouse> record(String house) {
        return read.computeIfAbsent(house, records);
    }

    /** {@return what the wiring of a part does, if its record is stored} */
    Optional<Wiring> wiring(String part) {
        return record(part(part).house())
                .map(s -> derived.computeIfAbsent(s.house().id(), id -> derivation.apply(s)));
    }

    /** {@return a load point of a part by its name} */
    Optional<LoadPointWiring> point(String part, String name) {
        return wiring(part)
                .flatMap(w ->
                        w.loadPoints().stream().filter(p -> p.id().equals(name)).findFirst());
    }

    /** {@return the links that begin at a load point} */
    List<Property.Link> from(String part, String point) {
        return property().links().stream()
                .filter(l -> l.from().equals(part) && l.point().equals(point))
                .toList();
    }

    /** {@return the links that feed a source} */
    List<Property.Link> into(String part, String source) {
        return property().links().stream()
                .filter(l -> l.to().equals(part) && l.source().equals(source))
                .toList();
    }

    /** {@return whether both ends of a link are in stored records} */
    boolean holds(Property.Link link) {
        return house(link.to())
                        .filter(h -> h.sources().containsKey(link.source()))
                        .isPresent()
                && house(link.from()).filter(h -> hasPoint(h, link.point())).isPresent();
    }

    /**
     * {@return why it is not known what feeds a part, in words; nothing where it is known} What is not known may hang on anything.
     */
    List<String> open(String part) {
        Optional<House> house = house(part);
        if (house.isEmpty()) {
            return List.of("its record, " + part(part).house() + ", is not stored");
        }
        List<String> why = new ArrayList<>();
        for (Source s : house.get().sources().values()) {
            List<Property.Link> links = into(part, s.name());
            boolean isOutside = s.kind() == SourceKind.RISER || s.kind() == SourceKind.NEIGHBOUR;
            if (links.isEmpty() && isOutside && !property().linksComplete()) {
                why.add("nobody recorded what feeds its source " + s.name());
            }
            links.stream()
                    .filter(l -> !holds(l))
                    .forEach(l -> why.add("its source " + s.name() + " is fed by " + l.from() + ":" + l.point()
                            + ", which no stored record has"));
        }
        house.get().panels().values().stream()
                .filter(p -> p.supply().isEmpty())
                .forEach(p -> why.add("nobody recorded what supplies its panel " + p.name()));
        return why;
    }

    /** {@return what the links and meters name that no stored record has, by where it stands: {@code links[0]}} */
    public Map<String, Problem> dangling() {
        Map<String, Problem> wrong = new LinkedHashMap<>();
        for (int i = 0; i < property().links().size(); i++) {
            Property.Link l = property().links().get(i);
            String at = "links[" + i + "]";
            house(l.from())
                    .filter(h -> !hasPoint(h, l.point()))
                    .ifPresent(h -> wrong.put(at, no(at, "load point", l.point(), l.from())));
            house(l.to())
                    .filter(h -> !h.sources().containsKey(l.source()))
                    .ifPresent(h -> wrong.put(at, no(at, "source", l.source(), l.to())));
        }
        property()
                .meters()
                .forEach((name, m) -> house(m.in())
                        .filter(h -> !h.sources().containsKey(m.source()))
                        .ifPresent(
                                h -> wrong.put("meters." + name, no("meters." + name, "source", m.source(), m.in()))));
        return wrong;
    }

    /** {@return the parts and types whose house is not stored, by where it stands: {@code parts.14a}} */
    public Map<String, Problem> missing() {
        Map<String, Problem> missing = new LinkedHashMap<>();
        property().parts().forEach((name, p) -> miss(missing, "parts." + name, p.house()));
        property().types().forEach((name, t) -> miss(missing, "types." + name, t.house()));
        return missing;
    }

    private void miss(Map<String, Problem> missing, String at, String house) {
        if (record(house).isEmpty()) {
            missing.put(
                    at,
                    Problem.warning(
                            ProblemKind.DANGLING_NAME,
                            Where.field(at),
                            "The house " + house + " is not stored.",
                            "Load it; until then nothing is known of its wiring."));
        }
    }

    private Problem no(String at, String what, String name, String part) {
        return Problem.error(
                ProblemKind.DANGLING_NAME,
                Where.field(at),
                "The record of " + part + ", " + part(part).house() + ", has no " + what + " " + name + ".",
                "Name one that it has, or record it there first.");
    }

    private static boolean hasPoint(House house, String point) {
        return house.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .anyMatch(d -> d.kind().loadPoints().stream()
                        .anyMatch(p -> point.equals(p.name().isEmpty() ? d.name() : d.name() + "." + p.name())));
    }
}
