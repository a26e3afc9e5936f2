package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.MainDisconnect;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Quantity;
import org.splicebook.record.Source;
import org.splicebook.record.SourceSystem;
import org.splicebook.web.view.Input;

/** The forms by which a panel is hung in another's place and a source is changed, and what they say as moves. */
final class SupplyForms {
    static final String PANEL = "replace-panel";
    static final String SOURCE = "change-source";

    private static final String RATING = "rating";
    private static final List<Input.Choice> SYSTEMS = Stream.of(SourceSystem.values())
            .map(s -> new Input.Choice(s.word(), s.word()))
            .toList();

    private SupplyForms() {}

    /** {@return the form by which another panel comes in a panel's place, with the same breakers} */
    static MoveForms.OneForm panel(Panel p) {
        MainDisconnect main = p.main();
        return new MoveForms.OneForm(
                PANEL,
                "The panel is taken down and another hung in its place; its breakers go along as they are",
                List.of(
                        typed("spaces", "Spaces", p.spaces() == null ? "" : String.valueOf(p.spaces()), "42"),
                        typed(RATING, "Rating of its bus", said(p.rating()), "200 A"),
                        typed(
                                "main",
                                "Rating of its main",
                                main == null ? "" : said(main.rating()),
                                "200 A; empty where it has main lugs only"),
                        Input.chosen(
                                Input.Kind.LIST,
                                "bonded",
                                "Neutral and ground in it",
                                p.bonded() ? "yes" : "no",
                                "",
                                List.of(new Input.Choice("no", "apart"), new Input.Choice("yes", "joined"))),
                        typed(
                                "landings",
                                "Breakers that go to other spaces, their wires with them",
                                "",
                                "13=9, 15+17=10+12; what is not named keeps its spaces")),
                "Hang it");
    }

    /** {@return the form by which a source is changed; none where there is no source} */
    static List<MoveForms.OneForm> source(House house) {
        if (house.sources().isEmpty()) {
            return List.of();
        }
        List<Input.Choice> sources = house.sources().values().stream()
                .map(s -> new Input.Choice(
                        s.name(),
                        s.name() + ", " + s.system().word()
                                + (s.rating() == null ? "" : ", " + s.rating().said())))
                .toList();
        return List.of(new MoveForms.OneForm(
                SOURCE,
                "A source is made another: a larger service. The conductors and the transformer that were recorded of it are left out",
                List.of(
                        Input.chosen(Input.Kind.LIST, "source", "Source", "", "", sources),
                        Input.chosen(Input.Kind.LIST, "system", "System", "", "", SYSTEMS),
                        typed(RATING, "Rating", "", "200 A")),
                "Change it"));
    }

    private static Input typed(String name, String label, String value, String meaning) {
        return Input.typed(Input.Kind.TEXT, name, label, value, meaning, false);
    }

    private static String said(@Nullable Quantity q) {
        return q == null ? "" : q.said();
    }

    /** {@return a move file's map of a source that is changed: what was not said stays} */
    static Map<String, Object> changed(House house, String name, String system, String rating) {
        Source s = house.sources().get(name);
        Map<String, Object> as = new LinkedHashMap<>();
        as.put("system", system.isEmpty() && s != null ? s.system().word() : system);
        if (s != null) {
            as.put("kind", s.kind().word());
            put(as, "bond", s.bond());
            put(as, "at", s.at());
            put(as, "from", s.from());
        }
        put(as, RATING, !rating.isEmpty() ? rating : s == null ? null : said(s.rating()));
        Map<String, Object> m = new LinkedHashMap<>();
        m.put(SOURCE, name);
        m.put("as", as);
        return m;
    }

    private static void put(Map<String, Object> as, String key, @Nullable String value) {
        if (value != null && !value.isEmpty()) {
            as.put(key, value);
        }
    }

    /**
     * {@return the move that hangs another panel with the breakers of today's}
     *
     * @param said the form's fields: {@code spaces}, {@code rating}, {@code main}, {@code bonded}, {@code landings}
     */
    static Move hung(House house, String panel, Map<String, String> said) {
        Panel was = house.panels().get(panel);
        if (was == null) {
            throw Failures.failure(ProblemKind.NOT_FOUND, "There is no panel " + panel + ".", "Choose another.");
        }
        if (!was.buses().isEmpty()) {
            throw Failures.failure(
                    ProblemKind.CONFLICT,
                    "The panel " + panel + " has more than one bus: which breakers stay is for the text of the draft.",
                    "Write the moves as text: replace-panel, with every breaker of the new panel.");
        }
        Map<String, Object> as = new LinkedHashMap<>();
        as.put("supply", was.supply());
        put(as, "place", was.place());
        put(as, "spaces", said.getOrDefault("spaces", ""));
        put(as, RATING, said.getOrDefault(RATING, ""));
        put(as, "bonded", said.getOrDefault("bonded", ""));
        String main = said.getOrDefault("main", "");
        if (!main.isEmpty()) {
            int poles = was.main() == null ? 2 : was.main().poles();
            as.put("main", Map.of("poles", String.valueOf(poles), RATING, main));
        }
        Map<String, Object> m = new LinkedHashMap<>();
        m.put(PANEL, panel);
        m.put("as", as);
        Panel is = ((Move.ReplacePanel) BoxPages.moves(house, List.of(m)).get(0)).is();
        return withBreakers(was, is, to(was, said.getOrDefault("landings", "")));
    }

    /** Old breaker's key to its new spaces. */
    private static Map<String, List<String>> to(Panel was, String said) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        for (String pair : said.split("[,;\n]", -1)) {
            if (pair.isBlank()) {
                continue;
            }
            String[] sides = pair.strip().split("\\s*=\\s*", -1);
            Breaker b = was.breakers().get(sides[0]);
            List<String> spaces = sides.length == 2 ? List.of(sides[1].split("\\+", -1)) : List.of();
            if (b == null
                    || spaces.size() != b.spaces().size()
                    || spaces.stream().anyMatch(s -> !s.matches("[1-9][0-9]{0,2}[ab]?"))) {
                throw Failures.failure(
                        ProblemKind.BAD_VALUE,
                        "'" + pair.strip() + "' does not say which breaker goes into which spaces.",
                        "Write the breaker, and as many spaces as it has poles: 15+17=10+12. There are "
                                + String.join(", ", was.breakers().keySet()) + ".");
            }
            all.put(b.key(), spaces);
        }
        return all;
    }

    private static Move withBreakers(Panel was, Panel is, Map<String, List<String>> to) {
        Map<String, Breaker> breakers = new LinkedHashMap<>();
        Map<String, String> spaces = new LinkedHashMap<>();
        Map<String, String> keys = new LinkedHashMap<>();
        Map<String, String> landings = new LinkedHashMap<>();
        for (Breaker b : was.breakers().values()) {
            List<String> its = to.getOrDefault(b.key(), b.spaces());
            Breaker there = b.at(its);
            for (Breaker other : breakers.values()) {
                if (other.spaces().stream().anyMatch(its::contains)) {
                    throw Failures.failure(
                            ProblemKind.CONFLICT,
                            "Two breakers would be in a space of " + there.key() + ".",
                            "Say where the other goes as well.");
                }
            }
            breakers.put(there.key(), there);
            keys.put(b.key(), there.key());
            for (int i = 0; i < its.size(); i++) {
                spaces.put(b.spaces().get(i), its.get(i));
            }
        }
        spaces.forEach((from, at) -> land(landings, from, at));
        was.breakers().values().stream()
                .filter(Breaker::neutralTerminal)
                .forEach(b -> land(
                        landings,
                        b.spaces().get(0) + ".neutral",
                        Objects.requireNonNull(spaces.get(b.spaces().get(0))) + ".neutral"));
        List<List<String>> ties = new ArrayList<>();
        was.ties().forEach(t -> ties.add(renamed(t, spaces)));
        Map<String, List<String>> pullOuts = new LinkedHashMap<>();
        was.pullOuts().forEach((name, t) -> pullOuts.put(name, renamed(t, spaces)));
        Panel hung = new Panel(
                is.name(),
                is.place(),
                is.supply(),
                is.spaces(),
                is.rating(),
                is.main(),
                breakers,
                ties,
                pullOuts,
                was.exclusive().stream().map(g -> renamed(g, keys)).toList(),
                Map.of(),
                Map.of(),
                is.bonded(),
                null,
                was.electrode(),
                List.of(),
                was.complete(),
                is.about());
        return new Move.ReplacePanel(hung, landings);
    }

    private static void land(Map<String, String> landings, String from, String at) {
        if (!from.equals(at)) {
            landings.put(from, at);
        }
    }

    private static List<String> renamed(List<String> names, Map<String, String> to) {
        return names.stream().map(s -> to.getOrDefault(s, s)).toList();
    }
}
