package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Place;
import org.splicebook.web.view.Link;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.ReliesOn;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.ThingKind;

/**
 * What a load point cannot do without: devices and breakers that its hot or its neutral passes. Where one of them is off, tripped or broken,
 * it is dead or floats; they are looked at before any box is opened.
 */
final class Needed {
    private final House house;
    private final Paths paths;

    Needed(House house, Paths paths) {
        this.house = house;
        this.paths = paths;
    }

    /** {@return devices first, whose buttons and levers are in rooms, then breakers, each with where it is} */
    List<Link> of(LoadPointWiring l) {
        Map<String, Sureness> devices = new LinkedHashMap<>();
        Map<String, Sureness> breakers = new LinkedHashMap<>();
        for (ReliesOn r : l.reliesOn()) {
            if (r.conductor() == Conductor.GROUND) {
                continue;
            }
            String name = r.thing().name();
            if (r.thing().kind() == ThingKind.DEVICE && !name.equals(l.device())) {
                devices.merge(name, r.sureness(), Needed::surer);
            } else if (r.thing().kind() == ThingKind.BREAKER) {
                breakers.merge(name, r.sureness(), Needed::surer);
            }
        }
        List<Link> all = new ArrayList<>();
        devices.forEach((name, s) -> device(name, s, all));
        breakers.forEach((name, s) -> all.add(paths.breaker(name, "is it on, and not tripped?" + sometimes(s))));
        return all;
    }

    private void device(String name, Sureness s, List<Link> all) {
        for (Box box : house.boxes().values()) {
            Device d = box.devices().get(name);
            if (d != null) {
                Place p = box.place() == null ? null : house.places().get(box.place());
                all.add(new Link(
                        paths.of("boxes", box.name()),
                        name,
                        d.kind().title().toLowerCase(Locale.ROOT) + ", " + (p == null ? "place not recorded" : p.said())
                                + sometimes(s)));
            }
        }
    }

    private static String sometimes(Sureness s) {
        return s == Sureness.MUST ? "" : " (in some cases)";
    }

    private static Sureness surer(Sureness a, Sureness b) {
        return a.compareTo(b) <= 0 ? a : b;
    }
}
