package org.splicebook.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.SightingWords;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.Device;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.record.Quantity;
import org.splicebook.record.Sighting;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rules.Finding;
import org.splicebook.store.Files;
import org.splicebook.web.view.Card;
import org.splicebook.web.view.Fact;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.wiring.Conductor;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;

/** One answer card for each load point, box, breaker, cable, place and panel of a house. */
final class Cards {

    private final Look look;
    private final Paths paths;
    private final List<Sighting> sightings;
    private final Files files;

    Cards(Look look, Paths paths, List<Sighting> sightings, Files files) {
        this.look = look;
        this.paths = paths;
        this.sightings = sightings;
        this.files = files;
    }

    /** {@return the card of a thing; null where the house has none of that name} */
    @Nullable
    Card of(String kind, String name) {
        return switch (kind) {
            case "points" -> point(name);
            case "boxes" -> box(name);
            case "breakers" -> breaker(name);
            case "cables" -> cable(name);
            case "places" -> place(name);
            case "panels" -> panel(name);
            default -> null;
        };
    }

    private @Nullable Card point(String id) {
        LoadPointWiring l = look.points().get(id);
        return l == null ? null : new PointCard(this, paths).of(l);
    }

    /** {@return the breakers that may feed a load point, each with the surest of its feeds from it} */
    static Map<String, Sureness> feeds(LoadPointWiring l) {
        Map<String, Sureness> feeds = new TreeMap<>();
        l.feeds().forEach(f -> feeds.merge(f.breaker(), f.sureness(), (a, b) -> a.compareTo(b) <= 0 ? a : b));
        return feeds;
    }

    static String word(Enum<?> e) {
        return e.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private @Nullable Card box(String name) {
        Box box = look.house().boxes().get(name);
        if (box == null) {
            return null;
        }
        List<Cable> cables = look.house().cables().values().stream()
                .filter(c -> c.through().contains(name) || c.ends().stream().anyMatch(e -> name.equals(e.boxOrNull())))
                .toList();
        Set<String> circuits = new TreeSet<>();
        cables.forEach(c -> circuits.addAll(poles(c)));
        boolean whole =
                look.house().isComplete(box, Complete.CABLES) && look.house().isComplete(box, Complete.JOINTS);
        List<Fact> facts = new ArrayList<>();
        facts.add(where(box.place()));
        facts.add(new Fact(
                "Hot in it, as recorded",
                circuits.isEmpty()
                        ? List.of(Link.words("no pole recorded"))
                        : circuits.stream().map(Link::words).toList()));
        facts.add(new Fact(
                "Devices",
                box.devices().values().stream()
                        .map(Cards::said)
                        .map(Link::words)
                        .toList()));
        facts.add(new Fact(
                "Cables",
                cables.stream().map(c -> paths.cable(c.name(), other(c, name))).toList()));
        facts.add(new Fact(
                "Listed", List.of(Link.words(whole ? "all cables and joints" : "not everything: more may be in it"))));
        return new Card(
                "Box",
                name,
                (circuits.size() > 1 ? circuits.size() + " poles are hot in it. " : "")
                        + (whole ? "" : "Not everything in it is listed: more breakers may feed it."),
                List.of(
                        paths.ask("shut-off", "box", name, "What must be off before it is opened"),
                        paths.sheet("shut-off", name, "The same as a sheet with boxes to tick"),
                        paths.sheet("card", name, "A card and a tag for it"),
                        paths.ask(
                                "half-finished",
                                "box",
                                name,
                                "Done for today: how it must look before power comes back"),
                        new Link(paths.of("boxes", name) + "/edit", "Record what is in it, wire by wire", ""),
                        paths.ask("before-closing", "box", name, "What to test before it is closed")),
                facts,
                draw(DrawingKind.BOX, name),
                List.of(
                        points("Load points in it", l -> l.box().equals(name)),
                        documents(Pictured.of(box)),
                        findings(f -> f.boxes().contains(name) || f.subject().equals(name)),
                        seen(Stream.concat(
                                        Stream.of(name),
                                        Stream.concat(
                                                box.devices().keySet().stream(),
                                                cables.stream().map(Cable::name)))
                                .collect(Collectors.toSet()))),
                Caution.forWhat(Leads.TO_A_WIRE),
                Pictured.of(box).pictures(paths, files));
    }

    private static String said(Device d) {
        return d.name() + ", " + d.kind().title().toLowerCase(Locale.ROOT);
    }

    /** The poles that a cable's wires are hot of, as recorded. */
    private Set<String> poles(Cable c) {
        return c.wires().stream()
                .map(w -> look.uses().get(c.name() + "." + w.name()))
                .filter(Objects::nonNull)
                .flatMap(u -> u.uses().stream())
                .filter(u -> u.conductor() == Conductor.HOT && u.sureness() != Sureness.MAY)
                .map(WireUse.Use::pole)
                .filter(Objects::nonNull)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static String other(Cable c, String box) {
        return c.ends().stream()
                .map(e -> e.boxOrNull() == null ? "end not known" : e.boxOrNull())
                .filter(b -> !box.equals(b))
                .findFirst()
                .map(b -> b.equals("end not known") ? b : "to " + b)
                .orElse("");
    }

    private @Nullable Card breaker(String name) {
        int dot = name.indexOf('.');
        Panel panel = dot < 0 ? null : look.house().panels().get(name.substring(0, dot));
        Breaker b = panel == null ? null : panel.breakers().get(name.substring(dot + 1));
        if (panel == null || b == null) {
            return null;
        }
        long sure = look.points().values().stream()
                .filter(l -> feeds(l).getOrDefault(name, Sureness.MAY) != Sureness.MAY)
                .count();
        long may = look.points().values().stream()
                .filter(l -> feeds(l).get(name) == Sureness.MAY)
                .count();
        Quantity rating = b.rating();
        return new Card(
                "Breaker",
                name,
                "It feeds " + sure + (sure == 1 ? " load point" : " load points") + " as recorded"
                        + (may == 0 ? "." : "; " + may + " more are not excluded."),
                List.of(
                        paths.ask("what-goes-off", "thing", name, "What goes off with it, and what stays live"),
                        new Link(
                                paths.base() + "/drawings/house?of=" + Paths.part(name),
                                "The house by room, with what it takes down",
                                "")),
                List.of(
                        new Fact("Panel", List.of(paths.panel(panel.name()))),
                        new Fact("Rating", List.of(Link.words(rating == null ? "not recorded" : rating.said()))),
                        new Fact("Directory says", b.label() == null ? List.of() : List.of(Link.words(b.label()))),
                        new Fact(
                                "Protects beside overcurrent",
                                b.protects().stream()
                                        .map(p -> Link.words(word(p)))
                                        .toList())),
                draw(DrawingKind.CIRCUIT, name),
                List.of(
                        points("It feeds", l -> feeds(l).getOrDefault(name, Sureness.MAY) != Sureness.MAY),
                        findings(f -> name.equals(f.breaker()) || f.subject().equals(name))),
                Caution.forWhat(Leads.TO_A_SWITCH));
    }

    private @Nullable Card cable(String name) {
        Cable c = look.house().cables().get(name);
        if (c == null) {
            return null;
        }
        List<Link> ends = new ArrayList<>();
        c.ends().forEach(e -> {
            String box = e.boxOrNull();
            ends.add(
                    box == null
                            ? Link.words("not known")
                            : look.house().panels().containsKey(box) ? paths.panel(box) : paths.box(box));
        });
        List<Link> wires = c.wires().stream()
                .map(w -> new Link(
                        "",
                        w.name() + (w.colour().equals(w.name()) ? "" : " (" + w.colour() + ")"),
                        use(name + "." + w.name())))
                .toList();
        Quantity length = c.length();
        return new Card(
                "Cable",
                name,
                poles(c).isEmpty()
                        ? "No hot is recorded in it."
                        : "Hot in it, as recorded: " + String.join(", ", poles(c)) + ".",
                List.of(
                        paths.ask("shut-off", "cable", name, "What must be off before it is cut or drilled into"),
                        new Link(paths.of("cables", name) + "/photos", Pictured.WORDS, "")),
                List.of(
                        new Fact("Kind", List.of(Link.words(c.kind().word()))),
                        new Fact("Ends in", ends),
                        new Fact(
                                "Passes through",
                                c.through().stream().map(paths::box).toList()),
                        new Fact("Length", length == null ? List.of() : List.of(Link.words(length.said()))),
                        new Fact("Wires", wires)),
                List.of(),
                List.of(
                        documents(Pictured.of(c)),
                        findings(f -> f.subject().equals(name) || f.subject().startsWith(name + ".")),
                        seen(Set.of(name))),
                Caution.forWhat(Leads.TO_A_WIRE),
                Pictured.of(c).pictures(paths, files));
    }

    private String use(String wire) {
        WireUse u = look.uses().get(wire);
        String all = u == null
                ? ""
                : u.uses().stream()
                        .filter(x -> x.sureness() != Sureness.MAY)
                        .map(x -> word(x.conductor()) + (x.pole() == null ? "" : " of " + x.pole()))
                        .distinct()
                        .collect(Collectors.joining(", "));
        return all.isEmpty() ? "use not known" : all;
    }

    private @Nullable Card place(String name) {
        Place p = look.house().places().get(name);
        if (p == null) {
            return null;
        }
        List<Link> boxes = look.house().boxes().values().stream()
                .filter(b -> name.equals(b.place()))
                .map(b -> paths.box(b.name()))
                .toList();
        return new Card(
                "Place",
                p.said(),
                "",
                List.of(
                        paths.ask("shut-off", "place", name, "What must be off before its boxes are opened"),
                        paths.ask("shut-off", "spot", name, "Before drilling into its walls"),
                        paths.ask("dark", "place", name, "Emergency: make it as dark as it can be made")),
                List.of(
                        new Fact("Kind", List.of(Link.words(word(p.kind())))),
                        new Fact("Level", p.level() == null ? List.of() : List.of(Link.words(p.level()))),
                        new Fact("Boxes", boxes)),
                List.of(),
                List.of(points("Load points", l -> name.equals(l.place())), findings(f -> name.equals(f.place()))),
                Caution.forWhat(Leads.TO_A_SWITCH));
    }

    private @Nullable Card panel(String name) {
        Panel p = look.house().panels().get(name);
        if (p == null) {
            return null;
        }
        List<Link> breakers = p.breakers().values().stream()
                .map(b -> paths.breaker(name + "." + b.key(), b.label() == null ? "" : "directory: " + b.label()))
                .toList();
        return new Card(
                "Panel",
                name,
                "Behind its cover only qualified people work: the supply side stays live with the main off.",
                List.of(
                        paths.ask("shut-off", "box", name, "What must be off before its cover comes off"),
                        new Link(paths.of("panels", name) + "/directory", "The directory for its door, to print", ""),
                        paths.sheet("directory", name, "The directory as a sheet"),
                        paths.sheet("shut-off", name, "Its shut-off as a sheet with boxes to tick"),
                        new Link(paths.of("panels", name) + "/photos", Pictured.WORDS, "")),
                List.of(
                        where(p.place()),
                        new Fact("Supply", p.supply().stream().map(Link::words).toList()),
                        new Fact(
                                "Main",
                                List.of(Link.words(
                                        p.main() == null || p.main().rating() == null
                                                ? "none, or not recorded"
                                                : p.main().rating().said())))),
                draw(DrawingKind.PANEL, name),
                List.of(
                        new Section("Breakers", "", breakers),
                        documents(Pictured.of(p)),
                        findings(f -> f.boxes().contains(name)
                                || f.subject().startsWith(name + ":")
                                || f.subject().equals(name))),
                Caution.forWhat(Leads.TO_A_SWITCH),
                Pictured.of(p).pictures(paths, files));
    }

    private Section documents(Pictured of) {
        return new Section("Documents", "", of.documents(paths));
    }

    Fact where(@Nullable String place) {
        Place p = place == null ? null : look.house().places().get(place);
        return new Fact("Where", List.of(p == null ? Link.words("not recorded") : paths.place(p.name(), p.said())));
    }

    List<String> draw(DrawingKind kind, String name) {
        return List.of(Drawings.of(kind, look.wiring(), name).svg());
    }

    private Section points(String title, Predicate<LoadPointWiring> which) {
        return new Section(
                title,
                "",
                look.points().values().stream().filter(which).map(this::line).toList());
    }

    /** {@return a load point with its feed beside it} */
    Link line(LoadPointWiring l) {
        Map<String, Sureness> feeds = feeds(l);
        String shown = feeds.entrySet().stream()
                .filter(e -> e.getValue() != Sureness.MAY)
                .map(Map.Entry::getKey)
                .collect(Collectors.joining(" and "));
        return paths.point(l.id(), shown.isEmpty() ? "feed not shown" : shown);
    }

    Section findings(Predicate<Finding> which) {
        return new Section(
                "Findings",
                "",
                look.checked().open().stream().filter(which).map(this::finding).toList());
    }

    /** {@return a finding in a line, leading to it at length} */
    Link finding(Finding f) {
        return new Link(
                paths.base() + "/findings/" + Paths.part(f.rule()) + "/" + Paths.part(f.subject()),
                f.title() + ", " + f.subject(),
                f.severity().word() + ", " + f.certainty().word());
    }

    /** {@return what the hot or neutral of a load point cannot do without, that may be off, tripped or broken} */
    List<Link> needed(LoadPointWiring l) {
        return new Needed(look.house(), paths).of(l);
    }

    Section seen(Set<String> names) {
        return new Section(
                "Observed",
                "",
                sightings.stream()
                        .filter(s -> s.seen().points().stream()
                                .anyMatch(p -> names.stream().anyMatch(n -> p.equals(n) || p.startsWith(n + "."))))
                        .map(SightingWords::dated)
                        .map(Link::words)
                        .toList());
    }
}
