package org.splicebook.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Row;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.evidence.Instruments;

/** What readings and record leave unproved of an answer's rows: legs, second halves, ghosts, readings that prove nothing. */
final class Unproved {
    private static final double OVER_TWO_LEGS = 190;
    private static final double LEAST_GHOST = 2;
    private static final double MOST_GHOST = 100;

    private final House house;
    private final List<Sighting> sightings;
    private final Answer answer;
    private final Set<String> named = new TreeSet<>();
    private final List<String> lines = new ArrayList<>();

    private Unproved(House house, List<Sighting> sightings, Answer answer) {
        this.house = house;
        this.sightings = sightings;
        this.answer = answer;
        answer.rows().stream()
                .filter(r -> r.status() != Row.Status.EXCLUDED)
                .map(Row::subject)
                .forEach(named::add);
        named.addAll(answer.heading().parameters().values());
    }

    /** {@return what is not proved, in sentences} */
    static List<String> lines(House house, List<Sighting> sightings, Answer answer) {
        Unproved u = new Unproved(house, sightings, answer);
        u.answer.rows().forEach(u::legs);
        u.halves();
        u.readings();
        return u.lines;
    }

    static List<String> lines(Asked asked, Answer answer) {
        return lines(asked.house(), asked.sightings(), answer);
    }

    /** Legs are known by the spaces of the panel until someone measured between two hots. */
    private void legs(Row row) {
        String kind = String.valueOf(row.columns().getOrDefault("kind", ""));
        if (!kind.startsWith("multiwire") || !(row.columns().get("points") instanceof List<?> points)) {
            return;
        }
        boolean measured = sightings.stream()
                .map(Sighting::seen)
                .anyMatch(s -> s instanceof Sighting.Volts v
                        && v.volts().base() > OVER_TWO_LEGS
                        && points.stream().anyMatch(p -> v.from().startsWith(p + "."))
                        && points.stream().anyMatch(p -> v.to().startsWith(p + ".")));
        if (!measured) {
            lines.add("That the hots of " + said(row.columns().getOrDefault("poles", ""))
                    + " are on unlike legs: it is taken from their spaces, nobody measured between them.");
        }
    }

    private static String said(Object list) {
        return list instanceof List<?> l
                ? String.join(" and ", l.stream().map(String::valueOf).toList())
                : String.valueOf(list);
    }

    private void halves() {
        for (Devices.Found f : Devices.all(house).values()) {
            String device = f.device().name();
            boolean tabKnown = f.device().tabs().containsKey("hot") || house.isComplete(f.box(), Complete.JOINTS);
            List<String> halves = f.device().kind().loadPoints().stream()
                    .map(p -> device + "." + p.name())
                    .toList();
            if (tabKnown || halves.size() != 2 || halves.stream().noneMatch(named::contains)) {
                continue;
            }
            List<String> tried = halves.stream().filter(this::isTried).toList();
            if (tried.size() == 1) {
                String other = halves.get(halves.indexOf(tried.get(0)) == 0 ? 1 : 0);
                lines.add("That " + other + " is on what " + tried.get(0)
                        + " is on: only that half was tried, and the tab was not looked at.");
            }
        }
    }

    private boolean isTried(String point) {
        return sightings.stream().anyMatch(s -> s.seen() instanceof Sighting.Lit l && l.at().equals(point));
    }

    private void readings() {
        for (Sighting s : sightings) {
            if (s.seen() instanceof Sighting.Lit l && concerns(l.at())) {
                lit(s, l);
            } else if (s.seen() instanceof Sighting.Lamps l && named.contains(l.at())) {
                lines.add("What " + s.id() + " of " + s.date() + " means (plug-in tester at " + l.at() + "): it seems "
                        + LampPattern.of(l).said());
            } else if (s.seen() instanceof Sighting.Volts v && (concerns(v.from()) || concerns(v.to()))) {
                double volts = Math.abs(v.volts().base());
                if (volts >= LEAST_GHOST && volts <= MOST_GHOST) {
                    lines.add("That " + s.id() + " (" + v.volts().said() + ", " + s.date()
                            + ") is no ghost: such volts also come from a live wire that runs beside.");
                }
            }
        }
    }

    private void lit(Sighting s, Sighting.Lit l) {
        if (Instruments.isField(s.instrument())) {
            lines.add("Anything by " + s.id() + " of " + s.date() + ": a " + s.instrument()
                    + " only reacts to a field. It shows and excludes nothing.");
        } else if (l.read() == Sighting.Reading.NOT_LIT
                && (l.before() != Sighting.Reading.LIT || l.after() != Sighting.Reading.LIT)) {
            lines.add("That " + l.at() + " hangs on " + said(s.withOff()) + ", by " + s.id() + " of " + s.date()
                    + ": it was not seen lit before and after.");
        } else if (l.read() == Sighting.Reading.NOT_LIT && !Instruments.tells(s.instrument())) {
            lines.add("That " + l.at() + " hangs on " + said(s.withOff()) + ", by " + s.id() + " of " + s.date() + ": "
                    + (s.instrument() == null
                            ? "what it was read with was not noted."
                            : "a " + s.instrument() + " is no instrument that counts."));
        }
    }

    private boolean concerns(String point) {
        return named.stream().anyMatch(n -> point.equals(n) || point.startsWith(n + ".") || n.startsWith(point + "."));
    }
}
