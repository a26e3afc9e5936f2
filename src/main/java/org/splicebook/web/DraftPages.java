package org.splicebook.web;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Question;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Draft;
import org.splicebook.render.FindingsText;
import org.splicebook.render.ReplyText;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Packs;
import org.splicebook.store.DraftState;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.ReplyView;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.WorkPage;
import org.splicebook.web.view.Wrong;

/** Drafts on pages: begun, compared with the house, entered as done, carried over, withdrawn, asked about. Every page of one is marked. */
final class DraftPages {
    private static final String ALL = "/houses/{house}/drafts";
    static final String ONE = ALL + "/{draft}";
    static final String BY_PAGE = "someone at the pages";
    static final String VERSION = "version";
    /** What drafts call it, and the forms do. */
    static final Map<String, String> FIELDS = Map.of("draft", "name");

    private static final int MOST_KEPT = 20;

    private record Key(String house, String draft, long version, long newest) {}

    private final HouseStore store;
    private final DraftDesk desk;

    /** Neither a version of a draft nor a revision ever changes. */
    private final Cache<Key, DraftLook> looks =
            Caffeine.newBuilder().maximumSize(MOST_KEPT).build();

    DraftPages(HouseStore store) {
        this.store = store;
        this.desk = new DraftDesk(store);
    }

    List<Route> routes() {
        return List.of(
                Route.get(ALL, ctx -> ctx.html(list(Sent.house(store, ctx), Map.of(), Wrong.NONE))),
                Route.post(ALL, this::begin),
                Route.get(ONE, ctx -> ctx.html(page(Sent.house(store, ctx), kept(ctx), Wrong.NONE))),
                Route.post(ONE, this::change),
                Route.get(ONE + "/moves.yaml", this::download),
                Route.get(ONE + "/drawings/{kind}", this::draw),
                Route.get(ONE + "/findings", this::findings),
                Route.get(ONE + "/questions", this::questions),
                Route.get(ONE + "/questions/{question}", this::reply));
    }

    private KeptDraft kept(Context ctx) {
        return desk.find(Api.house(ctx), ctx.pathParam("draft"));
    }

    private DraftLook look(KeptDraft kept) {
        long newest = desk.house(kept.draft().house()).revision().number();
        Key key = new Key(kept.draft().house(), kept.name(), kept.version(), newest);
        return Objects.requireNonNull(looks.get(key, k -> DraftLook.of(desk.compared(kept))));
    }

    static String page(StoredHouse stored, WorkPage page) {
        return Templates.page("work", Map.of("bar", Paths.bar(stored), "page", page));
    }

    private String list(StoredHouse stored, Map<String, String> said, Wrong wrong) {
        Paths paths = new Paths(stored.house().id());
        List<Link> live = new ArrayList<>();
        List<Link> over = new ArrayList<>();
        for (KeptDraft d : store.drafts(stored.house().id())) {
            String note = d.state().status().word() + ", " + d.state().done() + " of "
                    + d.draft().moves().size() + " moves done"
                    + (d.draft().reason() == null ? "" : ". " + d.draft().reason());
            (d.state().isLive() ? live : over).add(new Link(paths.of("drafts", d.name()), d.name(), note));
        }
        Entry begin = new Entry(
                paths.base() + "/drafts",
                "Begin a draft. Nothing of the house is changed by it",
                List.of(
                        Input.typed(
                                Input.Kind.TEXT,
                                "name",
                                "Name",
                                said.getOrDefault("name", ""),
                                "small letters, digits, hyphens: hall-neutral",
                                true),
                        Input.typed(
                                Input.Kind.TEXT,
                                "reason",
                                "What for",
                                said.getOrDefault("reason", ""),
                                "for example: the bath outlet is to be protected",
                                false)),
                "Begin it");
        return page(
                stored,
                WorkPage.of(
                                "Drafts",
                                "",
                                "A draft is a change that is proposed: looked at from all sides before anything is touched, and counted nowhere.")
                        .withWrong(wrong)
                        .withNext(
                                List.of(new Link(paths.base() + "/look", "Look for a change that cures a finding", "")))
                        .withEntries(List.of(begin))
                        .withSections(
                                List.of(new Section("Open", "", live), new Section("Entered or withdrawn", "", over))));
    }

    /** A new draft does not take another's name. */
    static String free(HouseStore store, String house, String name) {
        if (store.drafts(house).stream().anyMatch(d -> d.name().equals(name))) {
            throw Failures.failure(
                    "name", ProblemKind.CONFLICT, "There is a draft " + name + " already.", "Choose another name.");
        }
        return name;
    }

    private void begin(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String name = Sent.field(ctx, "name");
        String reason = Sent.field(ctx, "reason");
        Sent.attempt(
                ctx,
                FIELDS,
                () -> {
                    Draft draft = new Draft(
                            free(store, stored.house().id(), name),
                            stored.house().id(),
                            stored.revision().number(),
                            reason.isEmpty() ? null : reason,
                            List.of());
                    KeptDraft kept = desk.save(draft, 0, BY_PAGE);
                    return new Paths(stored.house().id()).of("drafts", kept.name()) + "/moves";
                },
                wrong -> list(stored, Map.of("name", name, "reason", reason), wrong));
    }

    private String page(StoredHouse stored, KeptDraft kept, Wrong wrong) {
        String here = new Paths(stored.house().id()).of("drafts", kept.name());
        DraftState state = kept.state();
        DraftLook look = look(kept);
        List<Link> next = new ArrayList<>();
        if (state.status() != DraftState.Status.ENTERED) {
            next.add(new Link(here + "/moves", "Add a move", ""));
        }
        next.add(new Link(here + "/questions", "Ask about the house after it", ""));
        next.add(new Link(here + "/findings", "What a check would find after it", ""));
        next.add(new Link(here + "/moves.yaml", "Take it away as a file of moves", ""));
        List<Entry> entries = new ArrayList<>();
        if (state.isLive()) {
            if (!look.since().isEmpty()) {
                entries.add(deed(
                        kept,
                        here,
                        "carry-over",
                        "The house has moved on, and what it touches was recorded otherwise. Look at it above, then make it a change of the newest revision",
                        List.of(),
                        "Carry it over although"));
            } else if (!state.left().isEmpty()) {
                entries.add(enter(kept, here, look));
            }
            if (!state.left().isEmpty()) {
                entries.add(remove(kept, here, look));
            }
            entries.add(deed(
                    kept,
                    here,
                    "withdraw",
                    "Give it up. What was entered of it stays as it is recorded",
                    List.of(),
                    "Withdraw it"));
        } else if (state.status() == DraftState.Status.WITHDRAWN) {
            entries.add(deed(kept, here, "take-up", "It was withdrawn", List.of(), "Take it up again"));
        }
        return page(
                stored, look.page(kept, here).withWrong(wrong).withNext(next).withEntries(entries));
    }

    private static Entry enter(KeptDraft kept, String here, DraftLook look) {
        List<String> steps = look.work().steps();
        List<Input.Choice> some = new ArrayList<>();
        some.add(new Input.Choice(
                String.valueOf(steps.size()), steps.size() == 1 ? "The one step" : "All " + steps.size() + " steps"));
        for (int i = 1; i < steps.size(); i++) {
            some.add(new Input.Choice(String.valueOf(i), i == 1 ? "The first step" : "The first " + i + " steps"));
        }
        return deed(
                kept,
                here,
                "enter",
                "It was done, with everything off and tested. Record it as done; the house then stands as it does after those steps",
                List.of(
                        Input.chosen(
                                Input.Kind.LIST, "steps", "Done", some.get(0).value(), "in order", some),
                        Input.typed(Input.Kind.TEXT, "by", "Who did it", "", "", false)),
                "Record it as done");
    }

    private static Entry remove(KeptDraft kept, String here, DraftLook look) {
        List<Input.Choice> moves = new ArrayList<>();
        List<String> steps = look.work().steps();
        for (int i = steps.size() - 1; i >= 0; i--) {
            moves.add(new Input.Choice(String.valueOf(kept.state().done() + i), (i + 1) + ". " + steps.get(i)));
        }
        return deed(
                kept,
                here,
                "remove",
                "Take a move out of the draft",
                List.of(Input.chosen(
                        Input.Kind.LIST,
                        "move",
                        "Move",
                        moves.get(0).value(),
                        "the last one, unless another is chosen",
                        moves)),
                "Take it out");
    }

    private static Entry deed(
            KeptDraft kept, String here, String what, String words, List<Input> inputs, String button) {
        List<Input> all = new ArrayList<>(
                List.of(Input.hidden(VERSION, String.valueOf(kept.version())), Input.hidden("what", what)));
        all.addAll(inputs);
        return new Entry(here, words, all, button);
    }

    private void change(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        KeptDraft kept = kept(ctx);
        String here = new Paths(stored.house().id()).of("drafts", kept.name());
        Sent.attempt(
                ctx,
                () -> {
                    change(ctx, kept);
                    return here;
                },
                wrong -> page(stored, kept, wrong));
    }

    private void change(Context ctx, KeptDraft kept) {
        long from = version(ctx);
        switch (Sent.field(ctx, "what")) {
            case "enter" -> {
                String by = Sent.field(ctx, "by");
                String day = LocalDate.now(ZoneId.systemDefault()).toString();
                Revision unused = desk.enter(kept, from, number(ctx, "steps"), false, by.isEmpty() ? BY_PAGE : by, day);
            }
            case "remove" -> {
                int move = number(ctx, "move");
                if (move < kept.state().done() || move >= kept.draft().moves().size()) {
                    throw Failures.failure(
                            "move",
                            ProblemKind.BAD_VALUE,
                            "There is no move " + (move + 1) + " that is left.",
                            "Choose one of the list.");
                }
                KeptDraft unused = desk.save(DraftDesk.without(kept.draft(), move), from, BY_PAGE);
            }
            case "carry-over" -> {
                KeptDraft unused = desk.carryOver(kept, from, true, BY_PAGE);
            }
            case "withdraw" -> {
                KeptDraft unused = desk.withdraw(kept, from, BY_PAGE);
            }
            case "take-up" -> {
                KeptDraft unused = desk.save(kept.draft(), from, BY_PAGE);
            }
            default ->
                throw Failures.failure(
                        ProblemKind.BAD_VALUE, "It was not said what to do.", "Use a button of the page.");
        }
    }

    /** {@return the version that what was sent is a change of} */
    static long version(Context ctx) {
        return HouseApi.number(Sent.field(ctx, VERSION));
    }

    private static int number(Context ctx, String field) {
        return (int) Math.min(Integer.MAX_VALUE, HouseApi.number(Sent.field(ctx, field)));
    }

    private void download(Context ctx) {
        KeptDraft kept = kept(ctx);
        ctx.contentType("application/yaml; charset=utf-8")
                .header("Content-Disposition", "attachment; filename=\"" + kept.name() + ".yaml\"")
                .result(DraftFiles.write(kept.draft()));
    }

    private void draw(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        KeptDraft kept = kept(ctx);
        String of = Objects.requireNonNullElse(ctx.queryParam("of"), "");
        WorkPage.Pair pair = look(kept).pair(DrawingApi.kind(ctx.pathParam("kind")), of);
        if (pair.before().isEmpty() && pair.after().isEmpty()) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND, "There is nothing called " + of + " to draw.", "Go back to the draft.");
        }
        ctx.html(page(
                stored,
                WorkPage.of("Draft " + kept.name() + ": " + of, ReplyText.DRAFT, "")
                        .withNext(List.of(new Link(
                                new Paths(stored.house().id()).of("drafts", kept.name()), "Back to the draft", "")))
                        .withFound(List.of(), List.of(pair), List.of(), DraftLook.CAUTIONS)));
    }

    private void findings(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        KeptDraft kept = kept(ctx);
        DraftLook look = look(kept);
        Checked checked = Checked.of(look.is(), Packs.of(look.is().house()));
        Map<String, List<String>> by = new LinkedHashMap<>();
        checked.open()
                .forEach(f -> by.computeIfAbsent(f.severity().word(), k -> new ArrayList<>())
                        .add(f.certainty().word() + ": " + f.title() + ", " + f.subject() + ". " + f.said()));
        List<ReplyView.Lines> lists = new ArrayList<>();
        by.forEach((severity, lines) -> lists.add(new ReplyView.Lines(severity, false, lines)));
        ctx.html(page(
                stored,
                WorkPage.of(
                                "Draft " + kept.name() + ": findings after it",
                                ReplyText.DRAFT,
                                checked.open().size() + " by " + checked.pack().title() + ". " + FindingsText.ADVICE)
                        .withNext(List.of(new Link(
                                new Paths(stored.house().id()).of("drafts", kept.name()), "Back to the draft", "")))
                        .withFound(List.of(), List.of(), lists, Caution.forWhat(Leads.TO_THE_RECORD))));
    }

    private void questions(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        String here = new Paths(stored.house().id()).of("drafts", kept(ctx).name());
        ctx.html(Templates.page(
                "questions",
                Map.of(
                        "bar",
                        Paths.bar(stored),
                        "mark",
                        ReplyText.DRAFT,
                        "forms",
                        store.questions().stream()
                                .filter(q -> !q.acrossHouses())
                                .map((Question q) -> Pages.form(here, q))
                                .toList())));
    }

    private void reply(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Map<String, Object> parameters = new LinkedHashMap<>();
        parameters.put(
                "reply",
                ReplyPage.of(store.askDraft(
                                ctx.pathParam("question"), look(kept(ctx)).drafted(), QuestionApi.parameters(ctx))
                        .get()));
        parameters.put("bar", Paths.bar(stored));
        ctx.html(Templates.page("reply", parameters));
    }
}
