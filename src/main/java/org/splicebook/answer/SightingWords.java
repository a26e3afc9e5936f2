package org.splicebook.answer;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Sighting;

/** Sightings in words. */
public final class SightingWords {
    private SightingWords() {}

    /** {@return what was observed, with its conditions: "bath-1.top lit, not lit, lit with main.3 off, by a lamp"} */
    public static String say(Sighting s) {
        List<String> words = new ArrayList<>();
        words.add(seen(s.seen()));
        if (!s.withOff().isEmpty()) {
            words.add("with " + String.join(" and ", s.withOff()) + " off");
        }
        s.levers().forEach((lever, position) -> words.add(lever + " " + position));
        if (s.instrument() != null) {
            words.add("by " + s.instrument());
        }
        return String.join(", ", words);
    }

    /** {@return the same after its id and day} */
    public static String dated(Sighting s) {
        return s.id() + " of " + s.date() + ": " + say(s);
    }

    private static String seen(Sighting.Seen seen) {
        if (seen instanceof Sighting.Lit l) {
            return l.at() + " " + (l.before() == null ? "" : l.before().word() + ", then ")
                    + l.read().word()
                    + (l.after() == null ? "" : ", then " + l.after().word());
        } else if (seen instanceof Sighting.Volts v) {
            return v.volts().said() + " between " + v.from() + " and " + v.to();
        } else if (seen instanceof Sighting.Lamps l) {
            return "at " + l.at() + " of the three lamps " + lamps(l);
        } else if (seen instanceof Sighting.Pressed p) {
            return "the button of " + p.device() + " pressed, " + list("out went ", p.wentOut())
                    + list("; there stayed ", p.stayed());
        } else if (seen instanceof Sighting.Clamp c) {
            return c.amperes().said() + " around " + c.around();
        } else if (seen instanceof Sighting.Continuity c) {
            return (c.connected() ? "continuity" : "no continuity") + " between " + c.from() + " and " + c.to();
        } else if (seen instanceof Sighting.LoadStep l) {
            return "a load switched on at " + l.at() + " was seen at " + l.seenAt() + said(", ", l.amperes());
        } else if (seen instanceof Sighting.Traced t) {
            return t.from() + " followed to " + t.to() + (t.how() == null ? "" : " (" + t.how() + ")");
        } else if (seen instanceof Sighting.LabelRead l) {
            return "the label at " + l.at() + " says \"" + l.text() + "\"";
        }
        throw new IllegalStateException("no such sighting");
    }

    private static String said(String before, org.splicebook.record.@Nullable Quantity q) {
        return q == null ? "" : before + q.said();
    }

    private static String list(String before, List<String> names) {
        return names.isEmpty() ? before + "nothing" : before + String.join(", ", names);
    }

    private static String lamps(Sighting.Lamps l) {
        List<String> lit = new ArrayList<>();
        if (l.hotNeutral()) {
            lit.add("hot to neutral");
        }
        if (l.hotGround()) {
            lit.add("hot to ground");
        }
        if (l.neutralGround()) {
            lit.add("neutral to ground");
        }
        return lit.isEmpty() ? "none lit" : String.join(" and ", lit) + " lit";
    }
}
