package org.splicebook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Complete;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Ref;
import org.splicebook.render.Json;
import org.splicebook.render.drawing.DrawingKind;
import org.splicebook.render.drawing.Drawings;
import org.splicebook.rewire.Entered;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;
import org.splicebook.wiring.Derivation;

/** Records what is in a box, wire by wire. */
final class BoxPages {
    private static final String EDIT = "/houses/{house}/boxes/{name}/edit";
    static final String BY_PAGE = "someone at the pages";
    static final String UNKNOWN_END = "?";
    static final List<String> WIRES =
            List.of("14/2+ground", "14/3+ground", "12/2+ground", "12/3+ground", "14/2", "14/3", "12/2", "12/3");

    private final HouseStore store;

    BoxPages(HouseStore store) {
        this.store = store;
    }

    List<Route> routes() {
        return List.of(
                Route.get(EDIT, ctx -> {
                    StoredHouse stored = Sent.house(store, ctx);
                    ctx.html(edited(stored, box(stored, ctx), Wrong.NONE));
                }),
                Route.post(EDIT, this::edit));
    }

    static List<Move> moves(House house, List<Map<String, Object>> moves) {
        Map<String, Object> draft = new LinkedHashMap<>();
        draft.put("draft", "page");
        draft.put("house", house.id());
        draft.put("moves", moves);
        return DraftFiles.parse("", Json.text(Json.tree(draft)), house)
                .get()
                .draft()
                .moves();
    }

    static String put(HouseStore store, StoredHouse stored, long from, String box, List<Move> moves, String why) {
        return put(store, entered(stored.house(), moves), from, box, why);
    }

    /** {@return the house after moves that a form stands for; nobody counted them, so what is wrong is told without their number} */
    static House entered(House house, List<Move> moves) {
        String day = LocalDate.now(ZoneId.systemDefault()).toString();
        Result<House> after = Entered.of(house, moves, moves.size(), day);
        if (after.isOk()) {
            return after.get();
        }
        throw new ProblemException(after.problems().stream()
                .map(p -> Problem.error(p.kind(), p.where(), p.message().replaceFirst("^Move \\d+: ", ""), p.cure()))
                .toList());
    }

    static String put(HouseStore store, House after, long from, String box, String why) {
        Revision made = store.put(after, from, BY_PAGE, why + " " + box).get();
        return Just.stored(new Paths(after.id()).of("boxes", box) + "/edit", made);
    }

    static Box box(StoredHouse stored, Context ctx) {
        Box box = stored.house().boxes().get(ctx.pathParam("name"));
        if (box == null) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND,
                    "There is no box " + ctx.pathParam("name") + ".",
                    "Search for it by its room.");
        }
        return box;
    }

    private void edit(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Box box = box(stored, ctx);
        long from = Sent.revision(ctx);
        String in = box.name();
        boolean isTapped = Sent.field(ctx, "what").equals(TapForm.WHAT);
        Sent.attempt(
                ctx,
                isTapped ? TapForm.FIELDS : MoveFields.FIELDS,
                () -> switch (Sent.field(ctx, "what")) {
                    case TapForm.WHAT -> {
                        String deed = Sent.field(ctx, TapForm.DEED);
                        House after = TapForm.done(
                                stored.house(),
                                box,
                                deed,
                                ctx.formParams(TapForm.ENDS),
                                Sent.field(ctx, TapForm.TO),
                                Sent.field(ctx, TapForm.BY));
                        yield put(store, after, from, in, TapForm.why(deed));
                    }
                    case "device" ->
                        put(
                                store,
                                stored,
                                from,
                                in,
                                moves(
                                        stored.house(),
                                        List.of(Map.of(
                                                "add-device",
                                                Sent.field(ctx, "device"),
                                                "in",
                                                in,
                                                "as",
                                                Map.of("kind", Sent.field(ctx, "kind"))))),
                                "A device seen in");
                    case "found" -> {
                        String cable = Sent.field(ctx, "cable");
                        House after = LostCables.found(stored.house(), cable, in);
                        yield put(store, after, from, in, "The end of " + cable + " found in");
                    }
                    case "cable" ->
                        put(
                                store,
                                stored,
                                from,
                                in,
                                moves(
                                        stored.house(),
                                        List.of(Map.of(
                                                "add-cable",
                                                Sent.field(ctx, "cable"),
                                                "as",
                                                Map.of(
                                                        "kind",
                                                        "NM",
                                                        "wires",
                                                        Sent.field(ctx, "wires"),
                                                        "ends",
                                                        List.of(Sent.field(ctx, "other-end"), in))))),
                                "A cable seen in");
                    default -> listed(stored, from, box, ctx.formParams("complete"));
                },
                wrong -> edited(stored, box, wrong));
    }

    /** What is wholly listed in the box. */
    private String listed(StoredHouse stored, long from, Box box, List<String> words) {
        Set<Complete> complete = new LinkedHashSet<>();
        for (Complete c : List.of(Complete.CABLES, Complete.JOINTS)) {
            if (words.contains(c.word())) {
                complete.add(c);
            }
        }
        House h = stored.house();
        Map<String, Box> boxes = new LinkedHashMap<>(h.boxes());
        boxes.put(box.name(), box.withJoints(box.joints(), complete));
        return put(store, h.withParts(h.panels(), h.cables(), boxes), from, box.name(), "What is wholly listed in");
    }

    static String edited(StoredHouse stored, Box box, Wrong wrong) {
        House house = stored.house();
        Paths paths = new Paths(house.id());
        List<Input.Choice> ends = choicesOf(house, box);
        List<Entry> entries = new ArrayList<>();
        if (ends.size() > 1) {
            entries.add(tap(stored, box, ends));
        }
        entries.addAll(PhotoPages.entries(stored, box));
        List<Input.Choice> kinds = Kinds.standard().entrySet().stream()
                .map(k -> new Input.Choice(k.getKey(), k.getValue().title()))
                .toList();
        entries.add(entry(
                stored,
                box,
                "device",
                "A device is in it",
                List.of(
                        Input.typed(Input.Kind.TEXT, "device", "Name", "", "for example " + box.name() + "-2", true),
                        Input.chosen(Input.Kind.LIST, "kind", "Kind", "", "", kinds)),
                "Add the device"));
        entries.add(entry(
                stored,
                box,
                "cable",
                "A cable ends in it",
                List.of(
                        Input.typed(Input.Kind.TEXT, "cable", "Name", "", "write it on its sheath", true),
                        Input.chosen(Input.Kind.LIST, "wires", "Wires", "", "", choices(WIRES)),
                        Input.chosen(Input.Kind.LIST, "other-end", "Its other end", UNKNOWN_END, "", others(house))),
                "Add the cable"));
        List<Input.Choice> lost = LostCables.of(house, box.name()).stream()
                .map(c -> new Input.Choice(c.name(), c.name(), otherEnd(c, box.name())))
                .toList();
        if (!lost.isEmpty()) {
            entries.add(entry(
                    stored,
                    box,
                    "found",
                    "A cable on record, whose end nobody had found, ends in it",
                    List.of(Input.chosen(Input.Kind.LIST, "cable", "Which", "", "", lost)),
                    "It ends here"));
        }
        entries.add(entry(
                stored,
                box,
                "complete",
                "Nothing else is in it: only say what you looked at whole. Answers exclude things on the strength of it",
                List.of(Input.chosen(
                        Input.Kind.SOME,
                        "complete",
                        "Wholly listed",
                        List.of(Complete.CABLES, Complete.JOINTS).stream()
                                .filter(c -> house.isComplete(box, c))
                                .map(Complete::word)
                                .collect(Collectors.joining(",")),
                        "",
                        List.of(
                                new Input.Choice(Complete.CABLES.word(), "Every cable"),
                                new Input.Choice(Complete.JOINTS.word(), "Every joint")))),
                "So it is"));
        return Sent.page(
                stored,
                new EditPage(
                        "Box " + box.name() + ": what is in it",
                        "",
                        wrong,
                        entries,
                        List.of(
                                new Section(
                                        "Joined now",
                                        "",
                                        box.joints().stream()
                                                .map(j -> Link.words(j.members().stream()
                                                        .map(Ref::said)
                                                        .collect(Collectors.joining(" with "))))
                                                .toList()),
                                PhotoPages.documents("Documents", paths, box),
                                new Section(
                                        "Done",
                                        "",
                                        List.of(
                                                new Link(paths.of("boxes", box.name()), "Its card and drawing", ""),
                                                new Link(paths.base() + "/history", "Undo", "")))),
                        Caution.forWhat(Leads.TO_A_WIRE),
                        PhotoPages.of(paths, box),
                        Drawings.of(DrawingKind.BOX, Derivation.derive(house), box.name())
                                .svg()));
    }

    private static String otherEnd(Cable c, String box) {
        return c.ends().stream()
                .map(e -> e.boxOrNull())
                .filter(b -> b != null && !b.equals(box))
                .findFirst()
                .map(b -> "from " + b)
                .orElse("neither end found");
    }

    private static Entry tap(StoredHouse stored, Box box, List<Input.Choice> ends) {
        Entry one = entry(
                stored,
                box,
                TapForm.WHAT,
                "Put the joints right: tap what is meant, then say what is so. What leaves a joint by it is in that joint no more",
                TapForm.inputs(ends),
                "");
        return new Entry(one.action(), one.words(), one.inputs(), TapForm.buttons(), false, true);
    }

    private static Entry entry(
            StoredHouse stored, Box box, String what, String words, List<Input> inputs, String button) {
        List<Input> all = new ArrayList<>(List.of(
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number())), Input.hidden("what", what)));
        all.addAll(inputs);
        return new Entry(new Paths(stored.house().id()).of("boxes", box.name()) + "/edit", words, all, button);
    }

    /** {@return the wire ends and terminals in a box, each with what it is joined to} */
    static List<Input.Choice> choicesOf(House house, Box box) {
        List<Input.Choice> ends = new ArrayList<>();
        for (String end : ends(house, box)) {
            String with = box.joints().stream()
                    .filter(j -> j.members().stream().anyMatch(m -> m.said().equals(end)))
                    .map(j -> j.members().size() == 1
                            ? "capped"
                            : j.members().stream()
                                    .map(Ref::said)
                                    .filter(m -> !m.equals(end))
                                    .collect(Collectors.joining(", ", "with ", "")))
                    .findFirst()
                    .orElse("");
            ends.add(new Input.Choice(end, end, with));
        }
        return ends;
    }

    /** {@return the wire ends and terminals in a box, as a house file names them} */
    private static List<String> ends(House house, Box box) {
        List<String> ends = new ArrayList<>();
        for (Cable c : house.cables().values()) {
            List<Integer> here = new ArrayList<>();
            for (int i = 0; i < 2; i++) {
                if (box.name().equals(c.ends().get(i).boxOrNull())) {
                    here.add(i);
                }
            }
            for (int i : here) {
                c.wires().forEach(w -> ends.add(new Ref.WireEnd(c.name(), w.name(), i, here.size() > 1).said()));
            }
        }
        box.devices().values().forEach(d -> d.kind().terminals().forEach(t -> ends.add(d.name() + "." + t.name())));
        return ends;
    }

    static List<Input.Choice> choices(List<String> words) {
        return words.stream().map(w -> new Input.Choice(w, w)).toList();
    }

    static List<Input.Choice> others(House house) {
        List<Input.Choice> all = new ArrayList<>(List.of(new Input.Choice(UNKNOWN_END, "not known")));
        all.addAll(choices(List.copyOf(house.panels().keySet())));
        all.addAll(choices(List.copyOf(house.boxes().keySet())));
        return all;
    }
}
