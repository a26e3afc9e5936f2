package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;

/** Terminals of kinds, by any of their names. */
final class Terminals {
    private Terminals() {}

    /** {@return the kind's own name of a terminal, or null when it has none of that name} */
    static @Nullable String resolve(DeviceKind kind, String name) {
        if (kind.findTerminal(name).isPresent()) {
            return name;
        }
        DeviceKind.Alias alias = kind.aliases().get(name);
        return alias == null ? null : alias.terminal();
    }

    /** {@return the names that may be written for terminals of a kind} */
    static Set<String> names(DeviceKind kind) {
        Set<String> names = new LinkedHashSet<>();
        kind.terminals().forEach(t -> names.add(t.name()));
        names.addAll(kind.aliases().keySet());
        return names;
    }

    /** Tells that a device has no such terminal, and which it has. */
    static void lacking(String device, DeviceKind kind, String terminal, Where at, Problems problems) {
        problems.error(
                ProblemKind.NO_SUCH_TERMINAL,
                at,
                device + " (" + kind.name() + ") has no terminal " + Said.quoted(terminal) + ".",
                () -> "It has: " + Said.list(names(kind)) + "."
                        + Nearest.to(terminal, names(kind))
                                .map(n -> " Did you mean " + n + "?")
                                .orElse(""));
    }

    /**
     * {@return whether a name may be used of a device: a name that means one half of it may not while the tab is out,
     * which is told}
     */
    static boolean isPlainEnough(Device device, String name, Where at, Problems problems) {
        DeviceKind kind = device.kind();
        DeviceKind.Alias alias =
                kind.findTerminal(name).isPresent() ? null : kind.aliases().get(name);
        if (alias == null || !Boolean.FALSE.equals(device.tabs().get(alias.whileTab()))) {
            return true;
        }
        String tab = alias.whileTab();
        problems.error(
                ProblemKind.NO_SUCH_TERMINAL,
                at,
                "The tab " + tab + " of " + device.name() + " is out, so " + Said.quoted(name)
                        + " could be either half.",
                () -> "Name the half: " + Said.list(ends(device, tab)) + ".");
        return false;
    }

    private static List<String> ends(Device device, @Nullable String tab) {
        List<String> ends = new ArrayList<>();
        for (DeviceKind.Tab t : device.kind().tabs()) {
            if (t.name().equals(tab)) {
                ends.add(device.name() + "." + t.a());
                ends.add(device.name() + "." + t.b());
            }
        }
        return ends;
    }
}
