package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.splicebook.record.Ordered;
import org.splicebook.record.StandardBox;
import org.splicebook.record.Unit;

/** The boxes of standard size that every house file may name. */
public final class StandardBoxes {
    private static final String FILE = "standard-boxes.yaml";
    private static final Set<String> KEYS = Set.of("title", "family", "volume", "per-gang", "mark");
    private static final Map<String, StandardBox> ALL = load();

    private StandardBoxes() {}

    /** {@return the standard boxes by their word, from {@code standard-boxes.yaml} (NEC Table 314.16(A))} */
    public static Map<String, StandardBox> all() {
        return ALL;
    }

    private static Map<String, StandardBox> load() {
        Problems problems = new Problems();
        Node file = YamlReader.read(FILE, Shapes.resource(FILE), Limits.NODES, problems)
                .orElseThrow(() -> new IllegalStateException(problems.inOrder().toString()));
        Map<String, StandardBox> all = new LinkedHashMap<>();
        for (Node.Entry e : Values.entries(file, problems)) {
            String name = e.key().text();
            Fields f = Fields.of(e.value(), KEYS, problems);
            all.put(
                    name,
                    new StandardBox(
                            name,
                            f.text("title", name),
                            f.text("family", ""),
                            Objects.requireNonNull(f.quantity("volume", Unit.Dimension.VOLUME, null), name),
                            f.yesNo("per-gang", false),
                            f.text("mark", "M")));
        }
        if (problems.any()) {
            throw new IllegalStateException(problems.inOrder().toString());
        }
        return Ordered.map(all);
    }
}
