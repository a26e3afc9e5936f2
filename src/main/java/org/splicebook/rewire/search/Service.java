package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Move;
import org.splicebook.record.Protection;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LeverTables;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ProtectedBy;
import org.splicebook.wiring.Return;
import org.splicebook.wiring.Supply;
import org.splicebook.wiring.Sureness;

/** Whether every load is served after a change as before it, or better. */
final class Service {
    private Service() {}

    /**
     * {@return what is worse, in words; nothing where all is as before or better}
     *
     * @param waived load points that may lose their ground-fault protection
     */
    static List<String> worse(State before, State after, List<String> waived) {
        List<String> all = new ArrayList<>();
        for (LoadPointWiring was : before.points().values()) {
            LoadPointWiring is = now(after, was);
            if (is == null) {
                all.add(was.id() + " is gone.");
                continue;
            }
            table(before.tables().get(was.id()), after.tables().get(is.id()), was.id(), all);
            if (has(was.returns(), Conductor.NEUTRAL) && !has(is.returns(), Conductor.NEUTRAL)) {
                all.add(was.id() + " loses its neutral.");
            }
            if (certain(was.grounds()) && !certain(is.grounds())) {
                all.add(was.id() + " loses its ground.");
            }
            if (was.supply() != is.supply() && (is.supply() == Supply.SHORT || is.supply() == Supply.TWICE)) {
                all.add(was.id() + " is fed by two breakers at once.");
            }
            Set<Protection> lost = protections(was);
            lost.removeAll(protections(is));
            if (waived.contains(was.id())) {
                lost.remove(Protection.GROUND_FAULT);
            }
            lost.forEach(p -> all.add(was.id() + " loses its protection: "
                    + p.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-') + "."));
        }
        for (LoadPointWiring is : after.points().values()) {
            Set<String> was = hotNeutrals(before, before.points().get(is.id()));
            hotNeutrals(after, is).stream()
                    .filter(t -> !was.contains(t))
                    .forEach(t -> all.add("A hot comes on " + t + ", which is made for the neutral."));
        }
        return all;
    }

    /** Terminals made for the neutral on which a hot is, or may be. */
    private static Set<String> hotNeutrals(State state, @Nullable LoadPointWiring l) {
        Set<String> all = new TreeSet<>();
        if (l != null) {
            l.feeds().stream()
                    .filter(f -> f.sureness() != Sureness.MAY && isForNeutral(state, l, f.terminal()))
                    .forEach(f -> all.add(f.terminal()));
        }
        return all;
    }

    private static boolean isForNeutral(State state, LoadPointWiring l, String terminal) {
        Box box = state.house().boxes().get(l.box());
        Device d = box == null ? null : box.devices().get(l.device());
        return d != null
                && terminal.length() > d.name().length()
                && d.kind()
                        .findTerminal(terminal.substring(d.name().length() + 1))
                        .filter(t -> t.role() == DeviceKind.Role.NEUTRAL)
                        .isPresent();
    }

    /** The same load point: halves of a duplex become the one load point of what takes its place. */
    static @Nullable LoadPointWiring now(State after, LoadPointWiring was) {
        LoadPointWiring is = after.points().get(was.id());
        return is != null ? is : after.points().get(was.device());
    }

    /** {@return how many load points come on another breaker, one that took its breaker's place not counted} */
    static int moved(State before, State after, List<Move> moves) {
        Map<String, String> names = new HashMap<>();
        for (Move m : moves) {
            if (m instanceof Move.ChangeBreaker c && c.is() != null) {
                String is = c.panel() + "." + c.is().key();
                c.was().forEach(w -> names.put(c.panel() + "." + w, is));
            }
        }
        int moved = 0;
        for (LoadPointWiring was : before.points().values()) {
            LoadPointWiring is = now(after, was);
            Set<String> a = new TreeSet<>();
            was.feeds().forEach(f -> a.add(names.getOrDefault(f.breaker(), f.breaker())));
            Set<String> b = new TreeSet<>();
            if (is != null) {
                is.feeds().forEach(f -> b.add(f.breaker()));
            }
            moved += !a.isEmpty() && !a.equals(b) ? 1 : 0;
        }
        return moved;
    }

    /** {@return whether it is fed and comes back over a neutral, or over its other hot where it has no terminal for a neutral} */
    static boolean isServed(State state, LoadPointWiring l) {
        Set<String> fed = new TreeSet<>();
        l.feeds().stream().filter(f -> f.sureness() != Sureness.MAY).forEach(f -> fed.add(f.terminal()));
        Box box = state.house().boxes().get(l.box());
        Device d = box == null ? null : box.devices().get(l.device());
        boolean hasNeutral =
                d == null || d.kind().terminals().stream().anyMatch(t -> t.role() == DeviceKind.Role.NEUTRAL);
        return !fed.isEmpty()
                && ((fed.size() > 1 && !hasNeutral)
                        || l.returns().stream()
                                .anyMatch(r -> r.over() == Conductor.NEUTRAL && r.sureness() == Sureness.MUST));
    }

    static boolean has(List<Return> all, Conductor over) {
        return all.stream().anyMatch(r -> r.over() == over && r.sureness() != Sureness.MAY);
    }

    static boolean certain(List<Return> all) {
        return all.stream().anyMatch(r -> r.sureness() == Sureness.MUST);
    }

    static Set<Protection> protections(LoadPointWiring l) {
        Set<Protection> all = new TreeSet<>();
        for (ProtectedBy p : l.protections()) {
            if (p.sureness() == Sureness.MUST) {
                all.add(p.function());
            }
        }
        return all;
    }

    /** {@return whether it works in some position} */
    static boolean works(LeverTables.@Nullable Table t) {
        return t != null && t.rows().stream().anyMatch(r -> r.does() == LeverTables.Does.ON);
    }

    /** A load that works in some positions must work in the same ones; one that never works may come to. */
    private static void table(
            LeverTables.@Nullable Table was, LeverTables.@Nullable Table is, String id, List<String> all) {
        if (was == null || is == null || was.rows().isEmpty() || is.rows().isEmpty()) {
            all.add("The switches of " + id + " are too many to try.");
            return;
        }
        Set<String> a = on(was);
        Set<String> b = on(is);
        if (!a.isEmpty() && !a.equals(b)) {
            all.add(b.isEmpty() ? id + " works no more." : id + " is switched otherwise than before.");
        }
    }

    /** The positions in which it works, levers that make no difference left out. */
    private static Set<String> on(LeverTables.Table t) {
        List<Integer> matter = new ArrayList<>();
        for (int i = 0; i < t.levers().size(); i++) {
            if (matters(t, i)) {
                matter.add(i);
            }
        }
        Set<String> on = new TreeSet<>();
        for (LeverTables.Row r : t.rows()) {
            if (r.does() == LeverTables.Does.ON) {
                TreeMap<String, String> at = new TreeMap<>();
                matter.forEach(i -> at.put(t.levers().get(i), r.positions().get(i)));
                on.add(at.toString());
            }
        }
        return on;
    }

    private static boolean matters(LeverTables.Table t, int lever) {
        Set<List<String>> on = new LinkedHashSet<>();
        Set<List<String>> off = new LinkedHashSet<>();
        Predicate<LeverTables.Row> works = r -> r.does() == LeverTables.Does.ON;
        for (LeverTables.Row r : t.rows()) {
            List<String> others = new ArrayList<>(r.positions());
            others.remove(lever);
            (works.test(r) ? on : off).add(others);
        }
        return on.stream().anyMatch(off::contains);
    }
}
