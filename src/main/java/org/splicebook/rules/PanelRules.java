package org.splicebook.rules;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.splicebook.record.Complete;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Ref;
import org.splicebook.wiring.PanelLegs;

/** Panels: spaces, tandems, lugs, place, directory. */
final class PanelRules {
    private static final Pattern HALF = Pattern.compile("[0-9]+[a-z]");

    private PanelRules() {}

    static void add(Map<String, Rule> all) {
        all.put("tandem-limit", PanelRules::tandems);
        all.put("two-wires-on-one-breaker", PanelRules::doubled);
        all.put("neutral-on-a-breaker", PanelRules::neutralOnBreaker);
        all.put("two-pole-on-one-leg", PanelRules::oneLeg);
        all.put("more-breakers-than-spaces", PanelRules::spaces);
        all.put("panel-in-wrong-place", PanelRules::place);
        all.put("too-many-throws", PanelRules::throwsOfService);
        all.put("main-larger-than-panel", PanelRules::main);
        all.put("directory-line-missing", PanelRules::missing);
        all.put("directory-wording", PanelRules::wording);
        all.put("directory-lines-alike", PanelRules::alike);
        all.put("spare-that-feeds", PanelRules::spare);
        all.put(
                "surge-protection",
                (f, out) -> service(f, out, "Is a surge device at the service? The record has no word for one."));
        all.put(
                "emergency-disconnect",
                (f, out) -> service(f, out, "Is there a disconnect outdoors that anyone can reach?"));
    }

    private static void tandems(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            List<String> halves = new ArrayList<>();
            p.breakers()
                    .values()
                    .forEach(b -> b.spaces().stream()
                            .filter(s -> HALF.matcher(s).matches())
                            .forEach(halves::add));
            if (!halves.isEmpty()) {
                out.asked(
                                p.name(),
                                "Tandems in " + String.join(", ", halves)
                                        + ". Does the panel's label allow them there, and so many circuits?")
                        .in(p.name())
                        .add();
            }
        }
    }

    private static void doubled(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            Map<String, Set<String>> wires = new TreeMap<>();
            for (Joint j : p.joints()) {
                for (Ref r : j.members()) {
                    if (r instanceof Ref.PanelTerminal t && f.breakerOf(p.name() + "." + t.terminal()) != null) {
                        f.wiresIn(j)
                                .forEach(w -> wires.computeIfAbsent(t.terminal(), k -> new TreeSet<>())
                                        .add(w.name()));
                    }
                }
            }
            wires.forEach((space, on) -> {
                if (on.size() > 1) {
                    String breaker = String.valueOf(f.breakerOf(p.name() + "." + space));
                    out.found(
                                    breaker,
                                    String.join(" and ", on)
                                            + " are on one terminal of it. Few breakers are listed for two.")
                            .in(p.name())
                            .of(breaker)
                            .add();
                }
            });
        }
    }

    private static void neutralOnBreaker(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            for (Joint j : p.joints()) {
                boolean bar = j.members().stream()
                        .anyMatch(r ->
                                r instanceof Ref.PanelTerminal t && t.terminal().equals("n"));
                for (Ref r : j.members()) {
                    if (bar && r instanceof Ref.PanelTerminal t && f.breakerOf(p.name() + "." + t.terminal()) != null) {
                        out.found(
                                        String.valueOf(f.breakerOf(p.name() + "." + t.terminal())),
                                        "Its terminal is joined to the neutral bar: a short.")
                                .in(p.name())
                                .add();
                    }
                }
            }
        }
    }

    private static void oneLeg(Facts f, Findings out) {
        for (Facts.InPanel b : f.breakers()) {
            if (b.breaker().spaces().size() < 2) {
                continue;
            }
            PanelLegs legs = PanelLegs.of(f.house().sources(), b.panel());
            Set<String> on = new TreeSet<>();
            b.breaker().spaces().forEach(s -> on.add(legs.of(s)));
            if (on.size() < b.breaker().spaces().size() && legs.count() > 1) {
                out.found(b.name(), "Two of its poles are on leg " + String.join(", ", on) + ": no 240 V between them.")
                        .in(b.panel().name())
                        .of(b.name())
                        .outlets(f.servedBy(b.name()).stream().map(l -> l.id()).toList())
                        .add();
            }
        }
    }

    private static void spaces(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            Map<String, List<String>> bySpace = new HashMap<>();
            p.breakers()
                    .values()
                    .forEach(b -> b.spaces()
                            .forEach(s -> bySpace.computeIfAbsent(s, k -> new ArrayList<>())
                                    .add(b.key())));
            bySpace.forEach((s, keys) -> {
                if (keys.size() > 1) {
                    out.found(
                                    p.name() + "." + s,
                                    "Two breakers are recorded in one space: " + String.join(" and ", keys) + ".")
                            .in(p.name())
                            .add();
                }
            });
            Integer most = p.spaces();
            if (most == null) {
                out.asked(p.name(), "How many spaces does it have?")
                        .in(p.name())
                        .add();
                continue;
            }
            bySpace.keySet().stream()
                    .filter(s -> s.matches("[0-9]{1,4}[a-z]?"))
                    .filter(s -> Integer.parseInt(s.replaceAll("[a-z]", "")) > most)
                    .forEach(s -> out.found(
                                    p.name() + "." + s,
                                    "The panel is recorded with " + most + " spaces; this is beyond them.")
                            .in(p.name())
                            .add());
        }
    }

    private static void place(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            PlaceKind kind = f.kindOf(p.place());
            if (kind == null) {
                out.asked(p.name(), "In what place does it hang?").in(p.name()).add();
            } else if (out.text().has("places", kind.word())) {
                out.found(p.name(), "It hangs in a place where panels may not be: " + kind.word() + ".")
                        .in(p.name())
                        .add();
            }
        }
    }

    /** How many throws clear a service without one main. */
    private static void throwsOfService(Facts f, Findings out) {
        double most = out.text().number("most");
        for (Panel p : f.house().panels().values()) {
            boolean service =
                    p.supply().stream().anyMatch(s -> f.house().sources().containsKey(s));
            if (!service || p.main() != null) {
                continue;
            }
            Set<String> behind = new TreeSet<>();
            p.buses().values().stream().filter(b -> b.fedBy() != null).forEach(b -> behind.addAll(b.spaces()));
            long direct = p.breakers().values().stream()
                    .filter(b -> b.spaces().stream().noneMatch(behind::contains))
                    .count();
            if (direct > most) {
                out.found(p.name(), direct + " throws are needed to clear it: more than " + Math.round(most) + ".")
                        .in(p.name())
                        .add();
            } else if (!f.house().isComplete(p, Complete.BREAKERS)) {
                out.asked(
                                p.name(),
                                "It has no one main. Are all breakers that are fed straight from the lugs recorded?")
                        .in(p.name())
                        .add();
            }
        }
    }

    private static void main(Facts f, Findings out) {
        for (Panel p : f.house().panels().values()) {
            if (p.main() != null && (p.main().rating() == null || p.rating() == null)) {
                out.asked(
                                p.name(),
                                "What is the rating of its "
                                        + (p.main().rating() == null ? "main" : "bus, as its label says") + "?")
                        .in(p.name())
                        .add();
            }
            if (p.main() != null
                    && p.main().rating() != null
                    && p.rating() != null
                    && p.main().rating().base() > p.rating().base()) {
                out.found(
                                p.name(),
                                "Its main is " + p.main().rating().said() + " and its bus "
                                        + p.rating().said() + ".")
                        .in(p.name())
                        .add();
            }
        }
    }

    private static void missing(Facts f, Findings out) {
        for (Facts.InPanel b : f.breakers()) {
            if (b.breaker().label() == null || b.breaker().label().isBlank()) {
                out.found(b.name(), "The directory has no line for it.")
                        .in(b.panel().name())
                        .of(b.name())
                        .add();
            }
        }
    }

    /** Words that tell too little, and words that hang on who lives there. */
    private static void wording(Facts f, Findings out) {
        List<Pattern> persons = out.text().list("personal").stream()
                .map(w -> Pattern.compile("\\b" + w + "\\b"))
                .toList();
        for (Facts.InPanel b : f.breakers()) {
            String label = label(b);
            boolean vague = out.text().has("vague", label);
            boolean personal = persons.stream().anyMatch(p -> p.matcher(label).find());
            if (vague || personal) {
                out.found(
                                b.name(),
                                "\"" + b.breaker().label() + "\" "
                                        + (vague
                                                ? "does not tell what it feeds."
                                                : "hangs on who lives there; name the room by where it lies."))
                        .in(b.panel().name())
                        .of(b.name())
                        .add();
            }
        }
    }

    private static String label(Facts.InPanel b) {
        return Objects.requireNonNullElse(b.breaker().label(), "").strip().toLowerCase(Locale.ROOT);
    }

    private static void alike(Facts f, Findings out) {
        Map<String, List<String>> by = new TreeMap<>();
        for (Facts.InPanel b : f.breakers()) {
            if (!label(b).isEmpty() && !b.breaker().isCalledSpare()) {
                by.computeIfAbsent(b.panel().name() + "/" + label(b), k -> new ArrayList<>())
                        .add(b.name());
            }
        }
        by.values().stream()
                .filter(names -> names.size() > 1)
                .forEach(names -> out.found(
                                names.get(0), "The directory says the same of " + String.join(" and ", names) + ".")
                        .in(names.get(0).substring(0, names.get(0).indexOf('.')))
                        .add());
    }

    private static void spare(Facts f, Findings out) {
        for (Facts.InPanel b : f.breakers()) {
            if (!b.breaker().isCalledSpare()) {
                continue;
            }
            List<String> fed = f.servedBy(b.name()).stream().map(l -> l.id()).toList();
            List<String> may = f.points().stream()
                    .filter(l -> l.feeds().stream().anyMatch(x -> x.breaker().equals(b.name())))
                    .map(l -> l.id())
                    .toList();
            if (fed.isEmpty() && !may.isEmpty()) {
                out.possible(
                                b.name(),
                                "The directory says \"" + b.breaker().label() + "\" and it may feed "
                                        + CircuitRules.some(may) + ".")
                        .in(b.panel().name())
                        .of(b.name())
                        .outlets(may)
                        .add();
            }
            if (!fed.isEmpty()) {
                out.found(
                                b.name(),
                                "The directory says \"" + b.breaker().label() + "\" and it feeds " + fed.size()
                                        + " load points.")
                        .in(b.panel().name())
                        .of(b.name())
                        .outlets(fed)
                        .add();
            }
        }
    }

    private static void service(Facts f, Findings out, String question) {
        f.house().panels().values().stream()
                .filter(p ->
                        p.supply().stream().anyMatch(s -> f.house().sources().containsKey(s)))
                .findFirst()
                .ifPresent(p -> out.asked(p.name(), question).in(p.name()).add());
    }
}
