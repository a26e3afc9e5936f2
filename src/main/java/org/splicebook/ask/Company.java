package org.splicebook.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Ref;

/** What each wire end and terminal touches. */
final class Company {
    private Company() {}

    /** {@return what touches it, in words, by box and member, for example {@code bench: K1.black}} */
    static Map<String, String> of(House house) {
        Map<String, String> all = new TreeMap<>();
        house.boxes().values().forEach(b -> b.joints().forEach(j -> add(all, b.name(), j, false)));
        house.panels().values().forEach(p -> p.joints().forEach(j -> add(all, p.name(), j, true)));
        return all;
    }

    /** Wires that land on one bar of a panel do not count as touching each other. */
    private static void add(Map<String, String> all, String box, Joint joint, boolean isPanel) {
        for (Ref member : joint.members()) {
            if (member instanceof Ref.PanelTerminal || member instanceof Ref.BoxMetal) {
                continue;
            }
            List<Ref> others = new ArrayList<>(joint.members());
            others.remove(member);
            boolean onTerminal = isPanel && others.stream().anyMatch(r -> r instanceof Ref.PanelTerminal);
            String said = others.stream()
                    .filter(r -> !onTerminal || r instanceof Ref.PanelTerminal)
                    .map(Ref::said)
                    .sorted()
                    .collect(Collectors.joining(", "));
            all.put(box + ": " + member.said(), said.isEmpty() ? "nothing: it is capped" : said);
        }
    }

    /** {@return the wire or terminal of an entry} */
    static String name(String entry) {
        return entry.substring(entry.indexOf(": ") + 2).split("@")[0];
    }
}
