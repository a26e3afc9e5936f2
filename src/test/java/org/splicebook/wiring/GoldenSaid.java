package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** Says a derived wiring in the plain words of the expect files. */
final class GoldenSaid {
    private final Wiring wiring;

    GoldenSaid(Wiring wiring) {
        this.wiring = wiring;
    }

    Set<String> loadPoints() {
        Set<String> ids = new TreeSet<>();
        wiring.loadPoints().forEach(lp -> ids.add(lp.id()));
        return ids;
    }

    /** What is said at one key of a section. */
    Object at(String section, String key) {
        return switch (section) {
            case "feeds" -> strongest(point(key).feeds(), Feed::pole, Feed::sureness);
            case "feeds-at" ->
                strongest(
                        allPoints(lp -> lp.feeds().stream()
                                .filter(f -> f.terminal().equals(key))
                                .toList()),
                        Feed::pole,
                        Feed::sureness);
            case "source-poles" -> {
                Map<String, List<String>> poles = new TreeMap<>();
                point(key)
                        .feeds()
                        .forEach(f -> poles.put(
                                f.pole(), f.sourcePoles().stream().sorted().toList()));
                yield poles;
            }
            case "supply" -> word(point(key).supply());
            case "returns" -> bars(point(key).returns(), Conductor.NEUTRAL);
            case "returns-at" ->
                bars(
                        allPoints(lp -> lp.returns().stream()
                                .filter(r -> r.terminal().equals(key))
                                .toList()),
                        Conductor.NEUTRAL);
            case "over-ground" -> bars(point(key).returns(), Conductor.GROUND);
            case "grounds" -> strongest(point(key).grounds(), Return::bar, Return::sureness);
            case "protections" -> protections(key);
            case "wires" -> wire(key);
            default -> throw new IllegalArgumentException("no such section: " + section);
        };
    }

    /** The entries of a section that is a list. */
    List<Map<String, Object>> list(String section) {
        List<Map<String, Object>> all = new ArrayList<>();
        switch (section) {
            case "islands" ->
                wiring.islands()
                        .forEach(i -> all.add(Map.of(
                                "id", i.id(),
                                "landings", i.landings(),
                                "wires", i.wires(),
                                "poles", i.poles(),
                                "load-points", i.loadPoints())));
            case "crossings" ->
                wiring.crossings()
                        .forEach(c -> all.add(Map.of(
                                "kind", word(c.kind()),
                                "island", c.island(),
                                "poles", c.poles(),
                                "load-points", c.loadPoints(),
                                "box", orNone(c.box()),
                                "device", orNone(c.device()),
                                "sureness", word(c.sureness()))));
            case "open-regions" ->
                wiring.openRegions()
                        .forEach(r -> all.add(
                                Map.of("boxes", r.boxes(), "breakers", r.breakers(), "load-points", r.loadPoints())));
            default -> throw new IllegalArgumentException("no such section: " + section);
        }
        return all;
    }

    /** What a load point relies on in every world, as {@code kind name}. */
    Set<String> mustRely(String loadPoint, String conductor) {
        Set<String> things = new TreeSet<>();
        for (ReliesOn r : point(loadPoint).reliesOn()) {
            if (word(r.conductor()).equals(conductor) && r.sureness() == Sureness.MUST) {
                things.add(word(r.thing().kind()) + " " + r.thing().name());
            }
        }
        return things;
    }

    /** What a load point relies on in some world at least, as {@code kind name}. */
    Set<String> mayRely(String loadPoint, String conductor) {
        Set<String> things = new TreeSet<>();
        for (ReliesOn r : point(loadPoint).reliesOn()) {
            if (word(r.conductor()).equals(conductor)) {
                things.add(word(r.thing().kind()) + " " + r.thing().name());
            }
        }
        return things;
    }

    /** All that is sure of a load point, the sources and mains of the whole house left out. */
    List<String> sure(String loadPoint) {
        List<String> sure = new ArrayList<>();
        LoadPointWiring lp = point(loadPoint);
        lp.feeds().stream().filter(f -> f.sureness() == Sureness.MUST).forEach(f -> sure.add("feed " + f.pole()));
        lp.returns().stream().filter(r -> r.sureness() == Sureness.MUST).forEach(r -> sure.add("return " + r.bar()));
        Set<ThingKind> whole = Set.of(ThingKind.SOURCE, ThingKind.MAIN, ThingKind.BUS, ThingKind.BAR, ThingKind.LUG);
        lp.reliesOn().stream()
                .filter(r -> r.sureness() == Sureness.MUST
                        && !whole.contains(r.thing().kind())
                        && !r.thing().name().contains(lp.device()))
                .forEach(r ->
                        sure.add("relies " + r.thing().kind() + " " + r.thing().name()));
        return sure;
    }

    /** The rows of one loss by load point; none where nothing hangs on the thing. */
    Map<String, Map<String, String>> lossRows(String mode, String thing) {
        Map<String, Map<String, String>> rows = new TreeMap<>();
        for (Loss loss : wiring.losses()) {
            if (word(loss.mode()).equals(mode) && loss.thing().name().equals(thing)) {
                for (LossRow r : loss.rows()) {
                    Map<String, String> row = new TreeMap<>();
                    row.put("hot", word(r.hot()));
                    row.put("neutral", word(r.neutral()));
                    row.put("ground", word(r.ground()));
                    row.put("sureness", word(r.sureness()));
                    rows.put(r.loadPoint(), row);
                }
            }
        }
        return rows;
    }

    private Map<String, List<String>> protections(String key) {
        Map<String, List<String>> by = new TreeMap<>();
        point(key).protections().stream()
                .sorted(Comparator.comparingInt(ProtectedBy::nearness).thenComparing(ProtectedBy::by))
                .forEach(p -> by.computeIfAbsent(p.function().word(), f -> new ArrayList<>())
                        .add(p.by().name() + (p.sureness() == Sureness.MUST ? "" : " may")));
        return by;
    }

    private Set<String> wire(String key) {
        Set<String> uses = new TreeSet<>();
        wiring.wires().stream()
                .filter(w -> w.wire().equals(key))
                .flatMap(w -> w.uses().stream())
                .forEach(u -> uses.add(
                        word(u.conductor()) + (u.pole() == null ? "" : " " + u.pole()) + " " + word(u.sureness())));
        return uses;
    }

    private LoadPointWiring point(String id) {
        return wiring.loadPoints().stream()
                .filter(lp -> lp.id().equals(id))
                .findFirst()
                .orElseThrow(() ->
                        new IllegalArgumentException("no such load point: " + id + ", there are " + loadPoints()));
    }

    private <T> List<T> allPoints(Function<LoadPointWiring, List<T>> of) {
        return wiring.loadPoints().stream().flatMap(lp -> of.apply(lp).stream()).toList();
    }

    private static Map<String, String> bars(Collection<Return> returns, Conductor over) {
        return strongest(returns.stream().filter(r -> r.over() == over).toList(), Return::bar, Return::sureness);
    }

    /** Sureness is declared strongest first. */
    private static <T> Map<String, String> strongest(
            Collection<T> all, Function<T, String> name, Function<T, Sureness> sureness) {
        Map<String, Sureness> best = new TreeMap<>();
        all.forEach(t -> best.merge(name.apply(t), sureness.apply(t), (a, b) -> a.compareTo(b) <= 0 ? a : b));
        Map<String, String> words = new TreeMap<>();
        best.forEach((k, v) -> words.put(k, word(v)));
        return words;
    }

    private static String orNone(@Nullable String s) {
        return s == null ? "none" : s;
    }

    static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
