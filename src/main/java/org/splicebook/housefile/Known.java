package org.splicebook.housefile;

import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Ref;
import org.splicebook.record.Source;

/**
 * What is known of a house while it is read. A name is known from the moment its key was seen, so that a part that is
 * itself wrong does not make every mention of it wrong too.
 */
final class Known {
    final Problems problems;
    final Map<String, Source> sources = new LinkedHashMap<>();
    final Map<String, Place> places = new LinkedHashMap<>();
    final Map<String, Panel> panels = new LinkedHashMap<>();
    final Map<String, Cable> cables = new LinkedHashMap<>();
    final Map<String, Box> boxes = new LinkedHashMap<>();
    final Map<String, Device> devices = new LinkedHashMap<>();
    final Map<String, String> boxOfDevice = new LinkedHashMap<>();

    final Set<String> sourceNames = new LinkedHashSet<>();
    final Set<String> placeNames = new LinkedHashSet<>();
    final Set<String> panelNames = new LinkedHashSet<>();
    final Set<String> cableNames = new LinkedHashSet<>();
    final Set<String> boxNames = new LinkedHashSet<>();

    /** The boxes and panels: where a cable may end. */
    final Set<String> ends = new LinkedHashSet<>();

    /** Where a wire end or a terminal of a device was named in a joint. */
    final Map<Ref, Where> joined = new HashMap<>();

    /** The box or panel in which a cable's end was found in a joint: {@code K1@1} to box. */
    final Map<String, String> endFound = new HashMap<>();

    /** Tabs that are in because a plain terminal was named: device to tabs. */
    final Map<String, Set<String>> tabsIn = new HashMap<>();

    private final Map<String, Set<String>> wireNames = new HashMap<>();
    private final Map<String, String> takenBy = new LinkedHashMap<>();

    /** Whether names of places, boxes and panels are taken as they stand: the house that has them is not at hand. */
    private final boolean isTrusting;

    Known(Problems problems) {
        this(problems, false);
    }

    Known(Problems problems, boolean isTrusting) {
        this.problems = problems;
        this.isTrusting = isTrusting;
    }

    /** Takes a name that may stand before a dot, so that it stands for one thing only. */
    void take(String name, String what, Where at) {
        String before = takenBy.putIfAbsent(name, what);
        if (before != null) {
            problems.error(
                    ProblemKind.DUPLICATE,
                    at,
                    "The name " + name + " is given to " + what + " and to " + before + ".",
                    "Give one of them another name: " + name + ".x must mean one thing.");
        }
    }

    /** {@return the names of a cable's wires} */
    Set<String> wiresOf(Cable cable) {
        return wireNames.computeIfAbsent(cable.name(), n -> {
            Set<String> names = new LinkedHashSet<>();
            cable.wires().forEach(w -> names.add(w.name()));
            return names;
        });
    }

    /** {@return whether the name is among those; if not, that is told} */
    boolean check(Node.Scalar name, Collection<String> among, String what) {
        return check(name.text(), name.at(), among, what);
    }

    private boolean check(String name, Where at, Collection<String> among, String what) {
        if (isTrusting || among.contains(name)) {
            return true;
        }
        problems.error(
                ProblemKind.DANGLING_NAME,
                at,
                "There is no " + what + " " + Said.quoted(name) + ".",
                () -> Nearest.cure(name, among, "names"));
        return false;
    }

    /** {@return the names that may stand before a dot: devices, cables, sources, panels} */
    Set<String> namesBeforeDot() {
        return takenBy.keySet();
    }
}
