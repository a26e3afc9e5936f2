package org.splicebook.render;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Breaker;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.NeutralIsland;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/**
 * The list for a panel's door: what each breaker really feeds, room by room, exact enough that no two lines can be mixed up (NEC 408.4(A)).
 *
 * @param panel the panel
 * @param place where it hangs
 * @param lines one for each breaker, then one for each space that holds none
 * @param isWhole whether every breaker is known to be listed
 */
public record PanelDirectory(String panel, String place, List<Line> lines, boolean isWhole) {
    /** What is in a space. */
    public enum State {
        /** A breaker that feeds something, as recorded. */
        FEEDS,
        /** A breaker on which a wire lands, or may land, that leads to nothing recorded. */
        UNKNOWN,
        /** A breaker on which no wire lands, every landing being listed. */
        UNUSED,
        /** No breaker. */
        FREE
    }

    /**
     * One line.
     *
     * @param spaces the spaces, for example {@code 2+4}
     * @param rating amperes and poles; empty for a free space
     * @param serves what it feeds, a room each
     * @param notProved how many more load points it is not proved not to feed
     * @param protects what it protects against beside overcurrent
     * @param sharesNeutral the breakers whose returns are on a neutral with its own
     * @param state what is there
     */
    public record Line(
            String spaces,
            String rating,
            List<String> serves,
            int notProved,
            List<String> protects,
            List<String> sharesNeutral,
            State state) {
        public Line {
            serves = List.copyOf(serves);
            protects = List.copyOf(protects);
            sharesNeutral = List.copyOf(sharesNeutral);
        }

        /** {@return what it feeds in one line, unused where the record shows nothing and leaves nothing open} */
        public String said() {
            String more = notProved == 0 ? "" : " (" + notProved + " more not excluded: test)";
            return switch (state) {
                case FEEDS -> String.join("; ", serves) + more;
                case UNKNOWN -> "not known: test" + more;
                case UNUSED -> "unused, as recorded" + more;
                case FREE -> "no breaker";
            };
        }
    }

    public PanelDirectory {
        lines = List.copyOf(lines);
    }

    /** {@return the directory of a panel; null where the house has none of that name} */
    public static @Nullable PanelDirectory of(Wiring wiring, String name) {
        House house = wiring.house();
        Panel panel = house.panels().get(name);
        if (panel == null) {
            return null;
        }
        boolean isWhole = house.isComplete(panel, Complete.BREAKERS);
        List<Line> lines = new ArrayList<>();
        Set<Integer> taken = new TreeSet<>();
        for (Breaker b : panel.breakers().values()) {
            b.spaces().forEach(s -> taken.add(space(s)));
            lines.add(line(wiring, panel, b));
        }
        int most = panel.spaces() == null ? 0 : panel.spaces();
        for (int n = 1; n <= most && isWhole; n++) {
            if (!taken.contains(n)) {
                lines.add(new Line(String.valueOf(n), "", List.of(), 0, List.of(), List.of(), State.FREE));
            }
        }
        lines.sort(Comparator.comparingInt(l -> space(l.spaces())));
        return new PanelDirectory(name, place(house, panel.place()), lines, isWhole);
    }

    private static Line line(Wiring wiring, Panel panel, Breaker b) {
        String breaker = panel.name() + "." + b.key();
        House house = wiring.house();
        Map<String, Map<String, Set<String>>> rooms = new LinkedHashMap<>();
        int notProved = 0;
        for (LoadPointWiring l : wiring.loadPoints()) {
            Sureness s = l.feeds().stream()
                    .filter(f -> f.breaker().equals(breaker))
                    .map(Feed::sureness)
                    .min(Comparator.naturalOrder())
                    .orElse(null);
            if (s == Sureness.MAY) {
                notProved++;
            } else if (s != null) {
                rooms.computeIfAbsent(place(house, l.place()), k -> new LinkedHashMap<>())
                        .computeIfAbsent(what(house, l), k -> new LinkedHashSet<>())
                        .add(isWhollyOn(wiring, l.device(), breaker) ? l.device() : l.id());
            }
        }
        List<String> serves = new ArrayList<>();
        rooms.forEach((room, kinds) -> {
            List<String> words = new ArrayList<>();
            kinds.forEach((kind, devices) -> words.add(
                    devices.size() == 1 && devices.contains(kind.replace(' ', '-'))
                            ? kind
                            : kind + " " + String.join(", ", devices)));
            serves.add(room + ": " + String.join(", ", words));
        });
        panelsBehind(house, panel, b).forEach(p -> serves.add("Panel " + p.name() + ": " + place(house, p.place())));
        String poles = b.spaces().size() == 1 ? "" : ", " + b.spaces().size() + " poles";
        return new Line(
                b.key(),
                (b.rating() == null ? "rating not recorded" : b.rating().said()) + poles,
                serves,
                notProved,
                b.protects().stream()
                        .map(p -> p.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                        .toList(),
                partners(wiring, panel, b),
                !serves.isEmpty() ? State.FEEDS : isBare(house, panel, b) ? State.UNUSED : State.UNKNOWN);
    }

    /** Whether no wire is on it, as far as the record can tell: every landing of the panel is listed. */
    private static boolean isBare(House house, Panel panel, Breaker b) {
        return house.isComplete(panel, Complete.LANDINGS)
                && panel.joints().stream()
                        .noneMatch(j -> j.members().stream()
                                .anyMatch(r -> r instanceof Ref.PanelTerminal t
                                        && b.spaces().contains(t.terminal())));
    }

    /** Whether every load point of a device is shown to be on the breaker; else a line names the half that is. */
    private static boolean isWhollyOn(Wiring wiring, String device, String breaker) {
        return wiring.loadPoints().stream()
                .filter(l -> l.device().equals(device))
                .allMatch(l ->
                        l.feeds().stream().anyMatch(f -> f.breaker().equals(breaker) && f.sureness() != Sureness.MAY));
    }

    private static String what(House house, LoadPointWiring l) {
        Device d = house.boxes().get(l.box()) == null
                ? null
                : house.boxes().get(l.box()).devices().get(l.device());
        if (d == null) {
            return "";
        }
        String what = d.load() == null
                ? d.kind().title().toLowerCase(Locale.ROOT)
                : d.load().replace('-', ' ');
        // The name follows: "water heater", not "water heater heater".
        String name = " " + l.device().replace('-', ' ');
        return what.endsWith(name) ? what.substring(0, what.length() - name.length()) : what;
    }

    /** Breakers with a return on the same neutral as one of its poles. */
    private static List<String> partners(Wiring wiring, Panel panel, Breaker b) {
        Set<String> own = new LinkedHashSet<>();
        b.spaces().forEach(s -> own.add(panel.name() + "." + s));
        Set<String> others = new TreeSet<>();
        for (NeutralIsland i : wiring.islands()) {
            if (i.poles().stream().anyMatch(own::contains)) {
                i.poles().stream().filter(p -> !own.contains(p)).forEach(others::add);
            }
        }
        return List.copyOf(others);
    }

    /** {@return the panels whose supply cable lands on this breaker} */
    public static List<Panel> panelsBehind(House house, Panel panel, Breaker breaker) {
        Set<String> cables = new LinkedHashSet<>();
        for (Joint j : panel.joints()) {
            boolean lands = j.members().stream()
                    .anyMatch(r ->
                            r instanceof Ref.PanelTerminal t && breaker.spaces().contains(t.terminal()));
            j.members().stream()
                    .filter(r -> lands && r instanceof Ref.WireEnd)
                    .forEach(r -> cables.add(((Ref.WireEnd) r).cable()));
        }
        return house.panels().values().stream()
                .filter(p -> !p.equals(panel) && p.supply().stream().anyMatch(cables::contains))
                .toList();
    }

    private static String place(House house, @Nullable String place) {
        Place p = place == null ? null : house.places().get(place);
        return p == null ? "place not recorded" : p.said();
    }

    private static int space(String spaces) {
        String digits = spaces.replaceAll("[^0-9].*", "");
        return digits.isEmpty() || digits.length() > 4 ? 0 : Integer.parseInt(digits);
    }
}
