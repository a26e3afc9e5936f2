package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.evidence.Instruments;
import org.splicebook.wiring.shutoff.Care;

/**
 * The survey of a recorded house as far as it has come. It has no state of its own: passes and readings are the house's sightings, so that it
 * goes on another day, on another device, with another person.
 *
 * @param survey throws, points and hypotheses
 * @param passes the passes found in the sightings, oldest first
 * @param readings what was read in them
 * @param known what that makes likely
 * @param devices the device of each point
 * @param life points that someone's health hangs on, and of which nobody said that a backup runs
 * @param disproved breakers whose label names a place or load of which every decided point is fed otherwise, or that are called spare and
 *     feed something
 * @param leftOut sightings of lamps that were not counted, with the reason
 * @param doubted readings that all else speaks against
 * @param last the date and the name of the newest pass; empty before the first
 */
public record RecordedSurvey(
        Survey survey,
        List<Pass> passes,
        List<Reading> readings,
        Posterior known,
        List<Device> devices,
        List<String> life,
        List<String> disproved,
        List<String> leftOut,
        List<Doubt> doubted,
        List<String> last) {
    private static final double SURE_ENOUGH = 0.95;
    /** Between two legs there are 240 or 208 V; between hots of one only what their loads let fall. */
    private static final double TWO_LEGS_VOLTS = 180;

    private static final double ONE_LEG_VOLTS = 30;

    public RecordedSurvey {
        passes = List.copyOf(passes);
        readings = List.copyOf(readings);
        devices = List.copyOf(devices);
        life = List.copyOf(life);
        disproved = List.copyOf(disproved);
        leftOut = List.copyOf(leftOut);
        doubted = List.copyOf(doubted);
        last = List.copyOf(last);
    }

    /**
     * A reading that all else speaks against: misread, or made while something else was off.
     *
     * @param point the load point
     * @param pass the pass, as it was called
     * @param date its day
     * @param off what was off, by name
     * @param out whether it was read as out
     * @param likeliest what takes the point out by all its readings
     */
    public record Doubt(String point, String pass, String date, List<String> off, boolean out, Cause likeliest) {
        public Doubt {
            off = List.copyOf(off);
        }
    }

    /** What makes one pass of sightings: its name and what was off. */
    private record PassKey(String date, String name, BitSet off) {}

    /**
     * {@return the survey of a house}
     *
     * @param wiring the house, derived
     * @param standing its sightings that stand, oldest first
     * @param wishes what people ask
     * @param chances the chances
     * @param onOneBreaker load points that hang on one breaker by a test that is not among the sightings, such as how voltages sag: each
     *     list is one breaker's
     */
    public static RecordedSurvey of(
            Wiring wiring, List<Sighting> standing, Wishes wishes, Chances chances, List<List<String>> onOneBreaker) {
        House house = wiring.house();
        Map<String, Device> byName = new HashMap<>();
        for (Box b : house.boxes().values()) {
            byName.putAll(b.devices());
        }
        List<Throw> throwing = Throws.of(wiring, wishes);
        Likes likes = new Likes(house);
        List<Point> points = new ArrayList<>();
        List<Device> devices = new ArrayList<>();
        List<List<Double>> liked = new ArrayList<>();
        List<LoadPointWiring> ordered = wiring.loadPoints().stream()
                .sorted(Comparator.comparing((LoadPointWiring l) -> Objects.requireNonNullElse(l.place(), l.box())))
                .toList();
        for (LoadPointWiring l : ordered) {
            Device d = byName.get(l.device());
            if (d != null) {
                points.add(new Point(l.id(), Objects.requireNonNullElse(l.place(), l.box()), l.device()));
                devices.add(d);
                liked.add(throwing.stream()
                        .map(t -> likes.of(t, l, d)
                                * standing.stream()
                                        .mapToDouble(s -> Likes.bySighting(s, t, l.id()))
                                        .reduce(1, (a, b) -> a * b))
                        .toList());
            }
        }
        Survey first = new Survey(throwing, points, chances, liked);
        Map<PassKey, Integer> passes = new LinkedHashMap<>();
        List<Reading> readings = new ArrayList<>();
        List<String> leftOut = new ArrayList<>();
        read(first, standing, passes, readings, leftOut);
        List<Pass> walked = passes.keySet().stream().map(k -> new Pass(k.off())).toList();
        List<Tie> ties = ties(first, standing);
        onOneBreaker.forEach(c ->
                addChain(ties, c.stream().map(o -> point(first, o)).toList()));
        Posterior found = Posterior.of(first, walked, readings, ties);
        Survey survey = first.with(Throws.found(throwing, found, devices, wishes));
        Posterior known = Posterior.of(survey, walked, readings, ties);
        List<String> life = new ArrayList<>();
        for (int p = 0; p < points.size(); p++) {
            if (Care.of(devices.get(p)) == Care.LIFE
                    && !wishes.backedUp().contains(points.get(p).id())
                    && !wishes.backedUp().contains(points.get(p).device())) {
                life.add(points.get(p).id());
            }
        }
        return new RecordedSurvey(
                survey,
                walked,
                readings,
                known,
                devices,
                life,
                disproved(likes, known, devices),
                leftOut,
                doubted(known, List.copyOf(passes.keySet()), readings),
                passes.keySet().stream()
                        .reduce((a, b) -> b)
                        .map(k -> List.of(k.date(), k.name()))
                        .orElse(List.of()));
    }

    private static List<Doubt> doubted(Posterior known, List<PassKey> passes, List<Reading> readings) {
        Survey survey = known.survey();
        List<BitSet> off = new ArrayList<>();
        List<BitSet> ever = new ArrayList<>();
        BitSet all = new BitSet();
        for (PassKey k : passes) {
            off.add(survey.unpowered(k.off()));
            all.or(off.get(off.size() - 1));
            ever.add((BitSet) all.clone());
        }
        List<Doubt> doubts = new ArrayList<>();
        for (Reading r : readings) {
            Posterior.Ranked top = known.top(r.point());
            boolean isForetoldOut = top.cause().isOut(off.get(r.pass()), ever.get(r.pass()));
            if (top.share() >= SURE_ENOUGH && isForetoldOut != r.out()) {
                PassKey k = passes.get(r.pass());
                doubts.add(new Doubt(
                        survey.points().get(r.point()).id(),
                        k.name(),
                        k.date(),
                        survey.names(k.off()),
                        r.out(),
                        top.cause()));
            }
        }
        return doubts;
    }

    private static void read(
            Survey survey,
            List<Sighting> standing,
            Map<PassKey, Integer> passes,
            List<Reading> readings,
            List<String> leftOut) {
        for (Sighting s : standing) {
            if (!(s.seen() instanceof Sighting.Lit lit)) {
                continue;
            }
            int point = point(survey, lit.at());
            BitSet off = off(survey, s.withOff());
            String why = point < 0
                    ? lit.at() + " is not one load point"
                    : off == null
                            ? "something else than a breaker was off"
                            : lit.before() == Sighting.Reading.NOT_LIT
                                    ? "it was not lit before"
                                    : Instruments.isField(s.instrument()) ? "a contactless probe shows nothing" : "";
            boolean isRead = lit.read() == Sighting.Reading.LIT || lit.read() == Sighting.Reading.NOT_LIT;
            if (off == null || !why.isEmpty() || !isRead) {
                if (!why.isEmpty()) {
                    leftOut.add(s.id() + ": " + why);
                }
                continue;
            }
            PassKey key = new PassKey(s.date(), Objects.requireNonNullElse(s.pass(), ""), off);
            Integer pass = passes.get(key);
            if (pass == null) {
                pass = passes.size();
                passes.put(key, pass);
            }
            readings.add(new Reading(point, pass, lit.read() == Sighting.Reading.NOT_LIT));
        }
    }

    /** What meters from hot to hot and test buttons show of two points, everything being on. */
    private static List<Tie> ties(Survey survey, List<Sighting> standing) {
        List<Tie> ties = new ArrayList<>();
        for (Sighting s : standing) {
            if (!s.withOff().isEmpty()) {
                continue;
            }
            if (s.seen() instanceof Sighting.Volts v && isHot(survey, v.from()) && isHot(survey, v.to())) {
                double volts = v.volts().base();
                Tie.Kind kind =
                        volts > TWO_LEGS_VOLTS ? Tie.Kind.OTHER_LEG : volts < ONE_LEG_VOLTS ? Tie.Kind.SAME_LEG : null;
                if (kind != null) {
                    ties.add(new Tie(point(survey, v.from()), point(survey, v.to()), kind));
                }
            } else if (s.seen() instanceof Sighting.Pressed p) {
                addChain(ties, p.wentOut().stream().map(o -> point(survey, o)).toList());
            }
        }
        ties.removeIf(t -> t.a() == t.b());
        return ties;
    }

    /** Adds that points hang on one breaker, each with the one before it; what is no point of the survey is passed over. */
    private static void addChain(List<Tie> ties, List<Integer> points) {
        List<Integer> real = points.stream().filter(i -> i >= 0).distinct().toList();
        for (int i = 1; i < real.size(); i++) {
            ties.add(new Tie(real.get(i - 1), real.get(i), Tie.Kind.SAME_BREAKER));
        }
    }

    private static boolean isHot(Survey survey, String terminal) {
        int point = point(survey, terminal);
        return point >= 0
                && (terminal.endsWith(".hot") || survey.points().get(point).id().equals(terminal));
    }

    /** The point that is meant: by its id, a terminal of it, or its device where that has one only; else -1. */
    private static int point(Survey survey, String at) {
        int found = -1;
        for (int p = 0; p < survey.points().size(); p++) {
            Point point = survey.points().get(p);
            if (at.equals(point.id()) || at.startsWith(point.id() + ".")) {
                return p;
            }
            if (at.equals(point.device())) {
                if (found >= 0) {
                    return -1;
                }
                found = p;
            }
        }
        return found;
    }

    private static @Nullable BitSet off(Survey survey, List<String> names) {
        BitSet off = new BitSet();
        for (String name : names) {
            int found = -1;
            for (int t = 0; t < survey.throwing().size(); t++) {
                found = survey.throwing().get(t).breakers().contains(name) ? t : found;
            }
            if (found < 0) {
                return null;
            }
            off.set(found);
        }
        return off;
    }

    private static List<String> disproved(Likes likes, Posterior known, List<Device> devices) {
        Survey survey = known.survey();
        List<String> all = new ArrayList<>();
        for (int t = 0; t < survey.throwing().size(); t++) {
            for (String name : survey.throwing().get(t).breakers()) {
                var breaker = likes.breaker(name);
                if (breaker == null || breaker.label() == null) {
                    continue;
                }
                int on = 0;
                int named = 0;
                int elsewhere = 0;
                for (int p = 0; p < survey.points().size(); p++) {
                    Posterior.Ranked top = known.top(p);
                    boolean isDecided =
                            top.share() >= SURE_ENOUGH && top.cause().isOneThrow();
                    boolean isNamed =
                            likes.names(breaker.label(), survey.points().get(p).place(), devices.get(p));
                    on += isDecided && top.cause().a() == t ? 1 : 0;
                    named += isNamed ? 1 : 0;
                    elsewhere += isNamed && isDecided && top.cause().a() != t ? 1 : 0;
                }
                if (breaker.isCalledSpare() ? on > 0 : named > 0 && elsewhere == named) {
                    all.add(name + " \"" + breaker.label() + "\"");
                }
            }
        }
        return all;
    }
}
