package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.answer.SightingWords;
import org.splicebook.record.Basis;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.evidence.Evidence;

/**
 * Which labels name what their breaker does not feed, by the wiring and by what was observed? Only words are compared, so that is possible
 * and never shown; shown is that something hangs on a breaker that is called spare.
 */
final class WrongLabels {
    private static final int WAYS = 2;

    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "wrong-labels", "Which labels name what their breaker does not feed?")
            .columns("label", "names", "feeds", "elsewhere", "sightings")
            .by(asked -> new WrongLabels(asked).answer());

    private final Asked asked;
    private final House house;
    private final Map<String, Devices.Found> devices;
    private final Map<String, Evidence.PointEvidence> evidence = new TreeMap<>();
    private final Map<String, Sighting> sightings = new TreeMap<>();
    private final List<Row> rows = new ArrayList<>();

    private WrongLabels(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.devices = Devices.all(house);
        asked.workings().evidence().points().forEach(p -> evidence.put(p.point(), p));
        asked.workings().standing().standing().forEach(s -> sightings.put(s.id(), s));
    }

    private Answer answer() {
        Breakers.all(house).forEach((name, b) -> {
            if (b.label() != null && !b.label().isBlank()) {
                judge(name, b);
            }
        });
        String outcome = rows.isEmpty()
                ? "No label is contradicted by what is known. Labels of what is not known were not judged."
                : rows.size() + (rows.size() == 1 ? " label speaks" : " labels speak")
                        + " otherwise than the wiring or the tests. Put them right when each is proved by a test.";
        return asked.answer(outcome, rows);
    }

    private void judge(String name, Breaker b) {
        String label = String.valueOf(b.label()).toLowerCase(Locale.ROOT);
        List<LoadPointWiring> fed = new ArrayList<>();
        Set<String> by = new TreeSet<>();
        Set<LoadPointWiring> named = new LinkedHashSet<>();
        Set<LoadPointWiring> closest = new LinkedHashSet<>();
        Set<String> words = new TreeSet<>();
        for (LoadPointWiring l : asked.wiring().loadPoints()) {
            if (feeds(l, name) || isSeenOnIt(l, name, by)) {
                fed.add(l);
            }
            String load = load(l);
            if (says(label, load)) {
                closest.add(l);
                named.add(l);
                words.add(load);
            }
            places(l).stream().filter(w -> says(label, w)).forEach(w -> {
                named.add(l);
                words.add(w);
            });
        }
        Set<String> elsewhere = elsewhere(closest.isEmpty() ? named : closest, name);
        if (b.isCalledSpare() && !fed.isEmpty()) {
            row(name, b, Row.Status.SHOWN, Set.of(), fed, Set.of(), by);
        } else if (!named.isEmpty() && !fed.isEmpty() && fed.stream().noneMatch(named::contains)) {
            row(name, b, Row.Status.POSSIBLE, words, fed, elsewhere, by);
        } else if (!named.isEmpty() && fed.isEmpty() && named.stream().allMatch(l -> isExcluded(l, name))) {
            row(name, b, Row.Status.POSSIBLE, words, fed, elsewhere, by);
        }
    }

    /** Whether it is fed over the breaker, a feeder's among them. */
    private static boolean feeds(LoadPointWiring l, String breaker) {
        return l.protections().stream()
                        .anyMatch(p -> p.function() == Protection.OVERCURRENT
                                && p.by().kind() == ThingKind.BREAKER
                                && p.by().name().equals(breaker)
                                && p.sureness() != Sureness.MAY)
                || l.feeds().stream()
                        .anyMatch(
                                f -> f.sureness() != Sureness.MAY && f.breaker().equals(breaker));
    }

    /** Whether a paired test found it out with this breaker alone off. */
    private boolean isSeenOnIt(LoadPointWiring l, String breaker, Set<String> by) {
        boolean found = false;
        for (Sighting s : sightings.values()) {
            if (s.seen() instanceof Sighting.Lit lit
                    && (lit.at().equals(l.id()) || lit.at().startsWith(l.id() + "."))
                    && s.withOff().equals(List.of(breaker))
                    && Evidence.isPairedTest(s)) {
                by.add(s.id());
                found = true;
            }
        }
        return found;
    }

    private boolean isExcluded(LoadPointWiring l, String breaker) {
        Evidence.PointEvidence p = evidence.get(l.id());
        return p != null
                && p.candidates().stream()
                        .filter(c -> c.breaker().equals(breaker))
                        .allMatch(c -> c.standing() == Evidence.Standing.EXCLUDED);
    }

    private static boolean says(String label, String words) {
        return !words.isEmpty()
                && Pattern.compile("\\b" + Pattern.quote(words.toLowerCase(Locale.ROOT)) + "\\b")
                        .matcher(label)
                        .find();
    }

    /** What a label may call the place of a load point. */
    private Set<String> places(LoadPointWiring l) {
        Set<String> words = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        Place place = l.place() == null ? null : house.places().get(l.place());
        if (place != null) {
            words.add(place.said());
            words.add(place.name());
            if (place.kind() != PlaceKind.OTHER) {
                words.add(place.kind().word());
            }
        }
        return words;
    }

    /** What hangs on a load point; empty where that is not recorded. */
    private String load(LoadPointWiring l) {
        Devices.Found device = devices.get(l.device());
        String load = device == null ? null : device.device().load();
        return load == null ? "" : load.replace('-', ' ');
    }

    private Set<String> elsewhere(Set<LoadPointWiring> named, String breaker) {
        Set<String> found = new TreeSet<>();
        named.forEach(l -> l.feeds().stream()
                .filter(f -> f.sureness() != Sureness.MAY && !f.breaker().equals(breaker))
                .map(Feed::breaker)
                .forEach(found::add));
        return found;
    }

    private void row(
            String name,
            Breaker b,
            Row.Status status,
            Set<String> words,
            List<LoadPointWiring> fed,
            Set<String> elsewhere,
            Set<String> by) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("label", b.label());
        columns.put("names", List.copyOf(words));
        columns.put("feeds", fed.stream().map(LoadPointWiring::id).toList());
        columns.put("elsewhere", List.copyOf(elsewhere));
        columns.put("sightings", List.copyOf(by));
        List<Reason> ways = fed.stream()
                .flatMap(l -> l.feeds().stream()
                        .filter(f -> f.breaker().equals(name) && f.sureness() != Sureness.MAY)
                        .map(f -> Reason.of("From " + f.terminal(), f.way(), house)))
                .limit(WAYS)
                .toList();
        List<String> why = new ArrayList<>(Reason.say(ways));
        by.forEach(id -> why.add(SightingWords.dated(java.util.Objects.requireNonNull(sightings.get(id)))));
        rows.add(new Row(name, status, Basis.LABELLED, columns, why, ways));
    }
}
