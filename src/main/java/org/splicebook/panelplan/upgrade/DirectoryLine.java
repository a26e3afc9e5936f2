package org.splicebook.panelplan.upgrade;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Wiring;

/** Lines for a panel's door (408.4(A)): what each circuit feeds as recorded, room by room, no two alike. */
final class DirectoryLine {
    private DirectoryLine() {}

    /**
     * {@return what breakers feed, as a line}
     *
     * @param breakers with their panel: {@code main.9}
     * @param behind panels that hang on them
     * @param named whether devices are told by name, so that lines differ
     */
    static String of(Wiring wiring, Collection<String> breakers, List<Panel> behind, boolean named) {
        House house = wiring.house();
        Map<String, Set<String>> rooms = new LinkedHashMap<>();
        boolean isOpen = false;
        for (LoadPointWiring l : wiring.loadPoints()) {
            Sureness s = l.feeds().stream()
                    .filter(f -> breakers.contains(f.breaker()))
                    .map(f -> f.sureness())
                    .min(java.util.Comparator.naturalOrder())
                    .orElse(null);
            if (s == Sureness.MAY) {
                isOpen = true;
            } else if (s != null) {
                rooms.computeIfAbsent(place(house, l.place()), k -> new LinkedHashSet<>())
                        .add(named ? l.device() : what(house, l));
            }
        }
        String known = rooms.entrySet().stream()
                .map(e -> e.getKey() + ": " + String.join(", ", e.getValue()))
                .collect(Collectors.joining("; "));
        String panels =
                behind.stream().map(p -> "Panel in " + place(house, p.place())).collect(Collectors.joining("; "));
        String all = List.of(known, panels).stream().filter(s -> !s.isEmpty()).collect(Collectors.joining("; "));
        return all.isEmpty() ? "Not known: test before use" : all + (isOpen ? "; more is not proved" : "");
    }

    private static String what(House house, LoadPointWiring l) {
        Box box = house.boxes().get(l.box());
        Device d = box == null ? null : box.devices().get(l.device());
        if (d == null) {
            return "load";
        }
        if (d.load() != null) {
            return d.load().replace('-', ' ');
        }
        return switch (d.kind().family()) {
            case RECEPTACLE, PROTECTIVE -> "receptacles";
            case LUMINAIRE -> "lights";
            default -> d.name().replace('-', ' ');
        };
    }

    private static String place(House house, @Nullable String place) {
        Place p = place == null ? null : house.places().get(place);
        return p == null ? "place not recorded" : p.said();
    }
}
