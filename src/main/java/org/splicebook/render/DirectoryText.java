package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A panel's directory as text for people and as JSON. */
public final class DirectoryText {
    /** Stands under every directory. */
    public static final String CAUTION =
            "Written from the record, which proves nothing: switch each breaker off and see what goes dark before this is put on the door."
                    + " The local code decides what a directory has to say.";

    private DirectoryText() {}

    /** {@return it in lines of at most that width} */
    public static String write(String house, PanelDirectory d, int width) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Lines.wrap("Panel " + d.panel() + ", " + d.place() + ". " + house, width));
        if (!d.isWhole()) {
            lines.addAll(Lines.wrap("Not every breaker is known to be listed.", width));
        }
        lines.add("");
        lines.addAll(new Table(
                        List.of("space", "breaker", "feeds", "beside overcurrent", "neutral shared with"),
                        d.lines().stream()
                                .map(l -> List.of(
                                        l.spaces(),
                                        l.rating(),
                                        l.said(),
                                        String.join(", ", l.protects()),
                                        String.join(", ", l.sharesNeutral())))
                                .toList())
                .lines(width));
        lines.add("");
        lines.addAll(Lines.wrap(CAUTION, width));
        return String.join("\n", lines) + "\n";
    }

    /** {@return the same for programs} */
    public static ObjectNode json(PanelDirectory d) {
        ObjectNode o =
                Json.object().put("panel", d.panel()).put("place", d.place()).put("whole", d.isWhole());
        o.set("lines", Json.list(d.lines(), l -> {
            ObjectNode line = Json.object().put("spaces", l.spaces()).put("rating", l.rating());
            line.set("feeds", Json.list(l.serves(), Json::tree));
            line.put("notExcluded", l.notProved());
            line.set("protects", Json.list(l.protects(), Json::tree));
            line.set("sharesNeutralWith", Json.list(l.sharesNeutral(), Json::tree));
            return line.put("state", l.state().name().toLowerCase(Locale.ROOT));
        }));
        return o.put("caution", CAUTION);
    }
}
