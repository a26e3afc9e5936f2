package org.splicebook.ask;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reason;
import org.splicebook.answer.Row;
import org.splicebook.record.Basis;
import org.splicebook.wiring.LeverTables;
import org.splicebook.wiring.LeverTables.Does;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Which switch does what: a truth table by levers. */
final class SwitchTable {
    static final ComputedQuestion QUESTION = ComputedQuestion.answer(
                    "switch-table", "Which switch does what (switch: {switch}, load point: {point})?")
            .with("switch", "one switch, for example foot", HouseNames.ANY)
            .with("point", "one load point, for example stair-light", HouseNames.ANY)
            .columns("switches", "does", "table", "place")
            .by(asked -> new SwitchTable(asked).answer());

    /** Longer tables are told by the combinations in which the load point works. */
    private static final int LONGEST = 8;

    private final Asked asked;
    private final String onlySwitch;
    private final String onlyPoint;

    private SwitchTable(Asked asked) {
        this.asked = asked;
        this.onlySwitch = asked.value("switch");
        this.onlyPoint = asked.value("point");
    }

    private Answer answer() {
        Map<String, LoadPointWiring> points =
                asked.wiring().loadPoints().stream().collect(Collectors.toMap(LoadPointWiring::id, l -> l));
        List<LeverTables.Table> tables = LeverTables.of(asked.house());
        List<Row> rows = new ArrayList<>();
        for (LeverTables.Table t : tables) {
            LoadPointWiring l = points.get(t.loadPoint());
            if (l != null && isAskedFor(t)) {
                rows.add(row(t, l));
            }
        }
        return asked.answer(outcome(rows), rows, notProven(tables), wouldSettle(rows));
    }

    private boolean isAskedFor(LeverTables.Table t) {
        if (!onlyPoint.equals(HouseNames.ANY)) {
            return t.loadPoint().equals(onlyPoint);
        }
        return onlySwitch.equals(HouseNames.ANY)
                ? !t.levers().isEmpty()
                : t.levers().stream().anyMatch(l -> l.equals(onlySwitch) || l.startsWith(onlySwitch + "."));
    }

    private Row row(LeverTables.Table t, LoadPointWiring l) {
        Map<String, Object> columns = new LinkedHashMap<>();
        columns.put("switches", t.levers());
        columns.put("does", verdict(t));
        columns.put("table", table(t));
        columns.put("place", l.place() == null ? "" : l.place());
        List<Reason> ways = l.feeds().stream()
                .filter(f -> f.sureness() != Sureness.MAY)
                .limit(2)
                .map(f -> Reason.of("From " + f.terminal(), f.way(), asked.house()))
                .toList();
        Basis basis = l.feeds().stream()
                .map(f -> f.way().basis())
                .reduce(Basis::weaker)
                .orElse(Basis.ASSUMED);
        boolean isOpen = asked.wiring().openRegions().stream()
                .anyMatch((Wiring.OpenRegion o) -> o.loadPoints().contains(l.id()));
        Row.Status status = isOpen || t.rows().isEmpty() ? Row.Status.POSSIBLE : Row.Status.SHOWN;
        return new Row(t.loadPoint(), status, basis, columns, Reason.say(ways), ways);
    }

    private static String table(LeverTables.Table t) {
        if (t.levers().isEmpty() || t.rows().isEmpty()) {
            return "";
        }
        boolean isLong = t.rows().size() > LONGEST;
        return t.rows().stream()
                .filter(r -> !isLong || r.does() == Does.ON)
                .map(r -> levers(t, r) + ": " + word(r.does()))
                .collect(Collectors.joining("; "));
    }

    private static String levers(LeverTables.Table t, LeverTables.Row r) {
        List<String> said = new ArrayList<>();
        for (int i = 0; i < t.levers().size(); i++) {
            said.add(t.levers().get(i) + " " + r.positions().get(i));
        }
        return String.join(", ", said);
    }

    private static String word(Does does) {
        return switch (does) {
            case ON -> "on";
            case OFF_AND_LIVE -> "off, and still live";
            case OFF -> "off";
        };
    }

    /** {@return what the table comes to, in words} */
    static String verdict(LeverTables.Table t) {
        if (t.rows().isEmpty()) {
            return "too many levers to try them all";
        }
        Set<Does> all = t.rows().stream().map(LeverTables.Row::does).collect(Collectors.toSet());
        String live = all.contains(Does.OFF_AND_LIVE)
                ? "; in some position it is off and a terminal of it is still live"
                : "";
        if (!all.contains(Does.ON)) {
            return "never on" + live;
        }
        if (all.size() == 1) {
            return "always on";
        }
        if (t.levers().size() == 1) {
            return "switched by " + t.levers().get(0) + live;
        }
        if (isChangedByEach(t)) {
            return "switched from " + t.levers().size() + " places: moving any of them changes it" + live;
        }
        return "not changed by every switch in every position: in series, or a traveler on a wrong screw" + live;
    }

    private static boolean isChangedByEach(LeverTables.Table t) {
        return t.rows().stream()
                .allMatch(a -> t.rows().stream()
                        .filter(b -> unlike(a, b) == 1)
                        .allMatch(b -> (a.does() == Does.ON) != (b.does() == Does.ON)));
    }

    private static long unlike(LeverTables.Row a, LeverTables.Row b) {
        long n = 0;
        for (int i = 0; i < a.positions().size(); i++) {
            n += a.positions().get(i).equals(b.positions().get(i)) ? 0 : 1;
        }
        return n;
    }

    private String outcome(List<Row> rows) {
        if (rows.isEmpty()) {
            return onlySwitch.equals(HouseNames.ANY)
                    ? "No switch changes anything that is recorded."
                    : "Nothing is recorded that " + onlySwitch
                            + " changes. That does not mean that it changes nothing.";
        }
        if (rows.size() == 1) {
            Row r = rows.get(0);
            return r.subject() + ": " + r.columns().get("does") + ".";
        }
        return (onlySwitch.equals(HouseNames.ANY) ? "Switches change " : onlySwitch + " changes ") + rows.size()
                + " load points.";
    }

    private List<String> notProven(List<LeverTables.Table> tables) {
        List<String> idle = Devices.switches(asked.house()).keySet().stream()
                .filter(s -> tables.stream()
                        .noneMatch(t -> t.levers().stream().anyMatch(l -> l.equals(s) || l.startsWith(s + "."))))
                .filter(s -> onlySwitch.equals(HouseNames.ANY) || s.equals(onlySwitch))
                .toList();
        return idle.isEmpty() ? List.of() : List.of("What " + String.join(", ", idle) + " switches.");
    }

    private static List<String> wouldSettle(List<Row> rows) {
        return rows.stream().anyMatch(r -> r.status() == Row.Status.POSSIBLE)
                ? List.of("Move each switch once with the lights on, and note what changes.")
                : List.of();
    }
}
