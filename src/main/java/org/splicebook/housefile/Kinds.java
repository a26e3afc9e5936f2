package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.Map;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Ordered;

/** The kinds of devices that every house file may name. */
public final class Kinds {
    /** The word for a device that brings its own terminals. */
    public static final String OTHER = "other";

    private static final String FILE = "device-kinds.yaml";
    private static final Map<String, DeviceKind> STANDARD = load();

    private Kinds() {}

    /** {@return the kinds by their word, from {@code device-kinds.yaml}; {@code other} is not among them} */
    public static Map<String, DeviceKind> standard() {
        return STANDARD;
    }

    private static Map<String, DeviceKind> load() {
        Problems problems = new Problems();
        Node file = YamlReader.read(FILE, Shapes.resource(FILE), Limits.NODES, problems)
                .orElseThrow(() -> new IllegalStateException(problems.inOrder().toString()));
        Map<String, DeviceKind> kinds = new LinkedHashMap<>();
        for (Node.Entry e : Values.entries(file, problems)) {
            String name = e.key().text();
            kinds.put(name, new KindReader(problems).standard(name, e.value()));
        }
        if (problems.any()) {
            throw new IllegalStateException(problems.inOrder().toString());
        }
        return Ordered.map(kinds);
    }
}
