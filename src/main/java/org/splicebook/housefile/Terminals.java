package org.splicebook.housefile;

import java.util.LinkedHashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
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
}
