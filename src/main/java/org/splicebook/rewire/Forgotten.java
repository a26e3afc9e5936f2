package org.splicebook.rewire;

import java.util.List;
import java.util.Set;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/** Leaves out what was observed of things that are gone. */
final class Forgotten {
    private Forgotten() {}

    static House without(House h, Set<String> gone) {
        List<Sighting> left = h.sightings().stream()
                .filter(s -> s.seen().points().stream().noneMatch(p -> names(p, gone)))
                .filter(s -> s.withOff().stream().noneMatch(p -> names(p, gone)))
                .filter(s -> s.levers().keySet().stream().noneMatch(p -> names(p, gone)))
                .toList();
        House seen = h.withSightings(left);
        return new House(
                seen.id(),
                seen.name(),
                seen.built(),
                seen.basis(),
                seen.code(),
                seen.area(),
                seen.complete(),
                seen.sources(),
                seen.places(),
                seen.panels(),
                seen.cables(),
                seen.boxes(),
                left,
                h.tests().stream().filter(t -> !names(t.device(), gone)).toList(),
                seen.accepted(),
                seen.about());
    }

    private static boolean names(String point, Set<String> gone) {
        return gone.stream().anyMatch(g -> point.equals(g) || point.startsWith(g + ".") || point.startsWith(g + "@"));
    }
}
