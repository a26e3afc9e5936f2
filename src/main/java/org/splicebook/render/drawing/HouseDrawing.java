package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.LossMode;
import org.splicebook.wiring.LossRow;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;
import org.splicebook.wiring.Wiring;

/** The house by room: every load point, and what becomes of it when one thing is lost. */
final class HouseDrawing {
    private static final double COLUMN = 300;
    private static final int COLUMNS = 3;
    private static final double GAP = 12;

    private final Wiring wiring;

    private HouseDrawing(Wiring wiring) {
        this.wiring = wiring;
    }

    static Drawing of(Wiring wiring, String subject) {
        return new HouseDrawing(wiring).draw(subject);
    }

    private Drawing draw(String subject) {
        Loss loss = subject.isEmpty() ? null : loss(subject);
        Map<String, LossRow> rows = new LinkedHashMap<>();
        if (loss != null) {
            loss.rows().forEach(r -> rows.put(r.loadPoint(), r));
        }
        String title = wiring.house().said() + (loss == null ? " by room" : ": what " + said(loss) + " takes down");
        Sketch s = new Sketch(wiring.house());
        s.bold(Sketch.MARGIN, Sketch.MARGIN + Sketch.LARGE, Sketch.LARGE, title);
        double top = Sketch.MARGIN + Sketch.LARGE + Sketch.LINE + 4;
        if (loss != null) {
            s.text(
                    Sketch.MARGIN,
                    top,
                    Sketch.PLAIN,
                    "Filled mark: should lose power. Ring with words: changed. No mark: as before.");
            top += Sketch.LINE;
        }
        Map<String, List<LoadPointWiring>> rooms = new LinkedHashMap<>();
        wiring.house().places().values().forEach(p -> rooms.put(p.said(), new ArrayList<>()));
        wiring.loadPoints()
                .forEach(l -> rooms.computeIfAbsent(Parts.place(wiring.house(), l.place()), k -> new ArrayList<>())
                        .add(l));
        rooms.values().removeIf(List::isEmpty);
        double[] ends = new double[COLUMNS];
        Arrays.fill(ends, top);
        List<String> words = new ArrayList<>();
        rooms.forEach((room, points) -> {
            int column = 0;
            for (int i = 1; i < COLUMNS; i++) {
                column = ends[i] < ends[column] ? i : column;
            }
            ends[column] = room(s, room, points, rows, Sketch.MARGIN + column * (COLUMN + GAP), ends[column]) + GAP;
            List<String> changed = points.stream()
                    .filter(l -> rows.containsKey(l.id()))
                    .map(l -> l.id() + " " + becomes(rows.get(l.id())))
                    .toList();
            words.add(room + ": "
                    + (loss == null
                            ? points.size() + " load points"
                            : changed.isEmpty() ? "as before" : String.join(", ", changed))
                    + ".");
        });
        return s.done(title, String.join(" ", words));
    }

    private static double room(
            Sketch s, String room, List<LoadPointWiring> points, Map<String, LossRow> rows, double x, double y) {
        double at = y + 20;
        s.bold(x + 8, at, Sketch.PLAIN, room);
        for (LoadPointWiring l : points) {
            at += Sketch.LINE;
            LossRow row = rows.get(l.id());
            String words = row == null ? "" : becomes(row);
            if (row != null) {
                s.dot(x + 13, at - 4, 4.5, row.hot() == LossRow.Hot.LOST && row.sureness() != Sureness.MAY);
            }
            List<String> lines = Sketch.wrap(l.id() + (words.isEmpty() ? "" : ": " + words), Sketch.SMALL, COLUMN - 34);
            for (int i = 0; i < lines.size(); i++) {
                at += i == 0 ? 0 : Sketch.LINE;
                s.text(x + 24, at, Sketch.SMALL, lines.get(i));
            }
        }
        s.frame(x, y, COLUMN, at - y + 10, 1.2, true);
        return at + 10;
    }

    private static String becomes(@Nullable LossRow r) {
        if (r == null) {
            return "";
        }
        String may = r.sureness() == Sureness.MAY ? "may be: " : "";
        return may
                + switch (r.hot()) {
                    case LOST -> "should lose power";
                    case LOST_LIVE_THROUGH_LOAD -> "feed lost, still live through a load";
                    case ONE_OF_TWO -> "one of two hots lost, still live";
                    case IMPAIRED -> "live in fewer switch positions";
                    case KEPT ->
                        switch (r.neutral()) {
                            case LOST -> "neutral lost, still live";
                            case OVER_GROUND -> "returns over ground, still live";
                            case IMPAIRED -> "neutral in fewer switch positions, still live";
                            case KEPT -> "ground changed, still live";
                        };
                };
    }

    private Loss loss(String subject) {
        for (LossMode mode :
                List.of(LossMode.OFF_BY_HAND, LossMode.GUARD_OPENS, LossMode.JOINT_LOST, LossMode.SWITCH_FAILS)) {
            for (Loss l : wiring.losses()) {
                if (l.mode() == mode && l.thing().name().equals(subject)) {
                    return l;
                }
            }
        }
        if (Parts.breaker(wiring.house(), subject) != null) {
            return new Loss(LossMode.OFF_BY_HAND, new Thing(ThingKind.BREAKER, subject), List.of());
        }
        throw Parts.missing(DrawingKind.HOUSE, subject);
    }

    private static String said(Loss l) {
        return switch (l.mode()) {
            case OFF_BY_HAND -> l.thing().name() + " switched off";
            case GUARD_OPENS -> "the protection in " + l.thing().name() + " opening";
            case SWITCH_FAILS -> "the switch " + l.thing().name() + " failing open";
            default -> "the parted joint " + l.thing().name();
        };
    }
}
