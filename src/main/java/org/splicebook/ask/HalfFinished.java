package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Basis;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;

/** Done for today: what must a half-finished box look like before the power comes back? */
final class HalfFinished {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "half-finished", "Done for today: what must {box} look like before the power comes back?")
            .with("box", "a box, for example stair-head")
            .columns("do", "else")
            .by(asked -> new HalfFinished(asked).answer());

    private final Asked asked;
    private final House house;
    private final String box;
    private final Box opened;

    private HalfFinished(Asked asked) {
        this.asked = asked;
        this.house = asked.house();
        this.box = asked.value("box");
        Box found = house.boxes().get(box);
        if (found == null) {
            throw Asked.wrong(
                    ProblemKind.BAD_VALUE,
                    "box",
                    box + " is a panel.",
                    "A panel is left half finished by nobody: a qualified person ends the work, or leaves its main off and locked.");
        }
        this.opened = found;
    }

    private Answer answer() {
        List<Row> rows = new ArrayList<>();
        for (Joint j : opened.joints()) {
            String name = box + ":"
                    + j.members().stream().map(Ref::said).sorted().findFirst().orElse("");
            rows.add(row(j, name));
        }
        long needed = rows.stream()
                .filter(r -> String.valueOf(r.columns().get("do")).startsWith("Join"))
                .count();
        String outcome = needed == 0
                ? "Nothing in " + box
                        + " has to be joined for what lies behind it, as far as is recorded. Every end capped, cover on."
                : needed + (needed == 1 ? " joint" : " joints") + " of " + box
                        + " must be joined again before the power comes back, or what lies behind stays off. Every other end capped.";
        return asked.answer(outcome, rows)
                .withSections(List.of(new Answer.Section("Before the power comes back", true, steps())));
    }

    private List<String> steps() {
        List<String> steps = new ArrayList<>();
        Set<String> live = live();
        steps.add(
                "Every wire end that is not joined: a cap of its own, one wire each, tugged. Nothing bare but grounds.");
        if (!live.isEmpty()) {
            steps.add("These come back live: " + String.join(", ", live) + ". Fold them apart, away from the metal.");
        }
        steps.add("Grounds joined through, and to the box where it is metal.");
        steps.add("No device hangs loose: screwed in, or taken out and its wires capped.");
        steps.add(
                "A cover on the box: blank where there is no device. A note on it: unfinished, the day, your name, which breakers.");
        steps.add("If a joint below cannot be made: leave the breakers of what lies behind it off and locked.");
        steps.add(
                "People clear, your own lock off, one breaker at a time; then read what lies behind: volts, hot to neutral.");
        return steps;
    }

    /** What some breaker may bring to the box. */
    private Set<String> live() {
        Set<String> here = BoxWires.of(house, box).stream()
                .filter(w -> w.presence() == BoxWires.Presence.ENDS)
                .map(BoxWires.Here::name)
                .collect(Collectors.toSet());
        return asked.wiring().wires().stream()
                .filter(u -> here.contains(u.wire()))
                .filter(u -> u.uses().stream().anyMatch(x -> x.conductor() == Conductor.HOT))
                .map(WireUse::wire)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private Row row(Joint j, String name) {
        Map<String, Set<String>> lost = lost(name);
        Set<String> floats = lost.getOrDefault("floats", Set.of());
        Set<String> grounds = lost.getOrDefault("ground", Set.of());
        Set<String> dark = lost.getOrDefault("dark", Set.of());
        Map<String, Object> columns = new LinkedHashMap<>();
        if (!floats.isEmpty()) {
            columns.put("do", "Join it: it is the neutral of what is fed past this box");
            columns.put(
                    "else",
                    list(floats) + " float: too many volts, or a shock at the parted neutral. Else "
                            + list(breakers(floats)) + " stay off");
        } else if (!grounds.isEmpty()) {
            columns.put("do", "Join it: it is the ground of what lies behind");
            columns.put("else", list(grounds) + " have no ground");
        } else if (!dark.isEmpty()) {
            columns.put("do", "May stay parted, each end capped");
            columns.put("else", "nothing worse than " + list(dark) + " without power");
        } else {
            columns.put("do", j.members().size() == 1 ? "Stays capped" : "May stay parted, each end capped");
            columns.put("else", "");
        }
        List<Reason> ways = asked.wiring().loadPoints().stream()
                .filter(l -> floats.contains(l.id()) || grounds.contains(l.id()))
                .flatMap(l -> (floats.isEmpty() ? l.grounds() : l.returns()).stream())
                .filter(r ->
                        r.way().hops().stream().anyMatch(h -> h.thing().name().equals(name)))
                .limit(1)
                .map(r -> Reason.of("From " + r.terminal(), r.way(), house))
                .toList();
        Basis basis = j.about().basisOr(opened.about().basisOr(house.basis()));
        boolean isOpen =
                asked.wiring().openRegions().stream().anyMatch(o -> o.boxes().contains(box));
        return new Row(
                name.substring(box.length() + 1),
                isOpen ? Row.Status.POSSIBLE : Row.Status.SHOWN,
                basis,
                columns,
                Reason.say(ways),
                ways);
    }

    private Map<String, Set<String>> lost(String joint) {
        Map<String, Set<String>> lost = new LinkedHashMap<>();
        for (Loss l : asked.wiring().losses()) {
            if (l.mode() == LossMode.JOINT_LOST && l.thing().name().equals(joint)) {
                for (LossRow r : l.rows()) {
                    boolean isLive = r.hot() != LossRow.Hot.LOST;
                    boolean noNeutral =
                            r.neutral() == LossRow.Neutral.LOST || r.neutral() == LossRow.Neutral.OVER_GROUND;
                    String what = isLive && noNeutral
                            ? "floats"
                            : isLive && r.ground() == LossRow.Ground.LOST ? "ground" : "dark";
                    lost.computeIfAbsent(what, k -> new TreeSet<>()).add(r.loadPoint());
                }
            }
        }
        return lost;
    }

    private Set<String> breakers(Set<String> points) {
        return asked.wiring().loadPoints().stream()
                .filter((LoadPointWiring l) -> points.contains(l.id()))
                .flatMap(l -> l.feeds().stream())
                .filter(f -> f.sureness() != Sureness.MAY)
                .map(f -> f.breaker())
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static String list(Set<String> names) {
        return String.join(", ", names);
    }
}
