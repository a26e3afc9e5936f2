package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Place;
import org.splicebook.record.Protection;
import org.splicebook.wiring.LoadPointWiring;

/** Arc-fault cover. The circuit is the subject: one outlet in a listed room brings all of it in. */
final class ArcFaultRules {
    private ArcFaultRules() {}

    static void add(Map<String, Rule> all) {
        all.put("arc-fault-by-room", ArcFaultRules::byRoom);
    }

    /** What of a circuit has no protection, or may have none. */
    private static final class Bare {
        final List<LoadPointWiring> outlets = new ArrayList<>();
        final Set<String> rooms = new TreeSet<>();
        boolean perhaps = true;

        @Nullable
        Integer since;

        void add(Place place, LoadPointWiring l, Outlets.Has has, @Nullable Integer asked) {
            outlets.add(l);
            rooms.add(place.said());
            perhaps &= has == Outlets.Has.PERHAPS;
            since = since == null ? asked : asked == null ? since : Integer.valueOf(Math.min(since, asked));
        }
    }

    private static void byRoom(Facts f, Findings out) {
        RuleText text = out.text();
        for (Facts.InPanel b : f.breakers()) {
            Double amperes = b.amperes();
            if (amperes != null && !text.has("amperes", String.valueOf(Math.round(amperes)))) {
                continue;
            }
            Bare listed = new Bare();
            Bare similar = new Bare();
            for (LoadPointWiring l : f.servedBy(b.name())) {
                Place place = f.place(l.place());
                Outlets.Has has = Outlets.has(f, l, Protection.ARC_FAULT);
                if (Outlets.isOfTwoLegs(f, l) || place == null || has == Outlets.Has.YES) {
                    continue;
                }
                String kind = place.kind().word();
                if (text.has("places", kind)) {
                    listed.add(place, l, has, ProtectionRules.year(text.list("first-asked"), kind));
                } else if (text.has("similar", kind)
                        || (text.has("unfinished", kind) && !Boolean.FALSE.equals(place.finished()))) {
                    similar.add(place, l, has, null);
                }
            }
            if (!listed.outlets.isEmpty()) {
                tell(draft(out, b, amperes, listed), b, listed)
                        .since(listed.since)
                        .add();
            } else if (!similar.outlets.isEmpty()) {
                String said = "It supplies outlets in " + String.join(", ", similar.rooms)
                        + " without arc-fault protection. Are they rooms like a hallway or a living room? The inspector decides.";
                tell(out.asked(b.name(), said), b, similar).between(null, null).add();
            }
        }
    }

    private static Findings.Draft draft(Findings out, Facts.InPanel b, @Nullable Double amperes, Bare bare) {
        String rooms = String.join(", ", bare.rooms);
        return amperes == null
                ? out.asked(
                        b.name(),
                        "What is its rating? Of 20 A and less its outlets in " + rooms
                                + " ask for arc-fault protection.")
                : out.found(
                        !bare.perhaps,
                        b.name(),
                        "It supplies outlets in " + rooms + " that " + (bare.perhaps ? "may have" : "have")
                                + " no arc-fault protection.");
    }

    private static Findings.Draft tell(Findings.Draft d, Facts.InPanel b, Bare bare) {
        d.of(b.name())
                .in(b.panel().name())
                .outlets(bare.outlets.stream().map(LoadPointWiring::id).toList());
        bare.outlets.stream()
                .flatMap(l -> l.feeds().stream())
                .filter(x -> x.breaker().equals(b.name()))
                .findFirst()
                .ifPresent(x -> d.way("From " + x.terminal(), x.way()));
        return d;
    }
}
