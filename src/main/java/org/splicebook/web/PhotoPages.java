package org.splicebook.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Leads;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Attachments;
import org.splicebook.record.Box;
import org.splicebook.record.House;
import org.splicebook.record.Photo;
import org.splicebook.record.Provenance;
import org.splicebook.store.Document;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Photograph;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.EditPage;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Picture;
import org.splicebook.web.view.Section;
import org.splicebook.web.view.Wrong;

/** Photographs and documents of boxes with their devices, of panels and cables: brought in, shown, taken off the record again. */
final class PhotoPages {
    private static final String PHOTO = "photo";
    private static final String OFF = "/off";
    private static final String NOT_HERE = "It may have been taken off, or the file is not on this machine.";

    private static final String DAMAGED = "The file was changed on the disk since it was kept, so it is not shown.";

    /** What a page shows of a photograph, in pixels; the whole of it is a tap away. */
    private static final int SMALL = 800;

    private final HouseStore store;
    private final Files files;

    PhotoPages(HouseStore store, Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        List<Route> routes = new ArrayList<>(List.of(Route.get("/houses/{house}/photos/{file}", this::show)));
        for (String kind : List.of(Pictured.BOXES, Pictured.PANELS, Pictured.CABLES)) {
            String form = "/houses/{house}/" + kind + "/{name}/photos";
            routes.add(Route.post(form, ctx -> add(ctx, kind)));
            routes.add(Route.post(form + OFF, ctx -> takeOff(ctx, kind)));
            if (!kind.equals(Pictured.BOXES)) {
                routes.add(Route.get(form, ctx -> {
                    StoredHouse stored = Sent.house(store, ctx);
                    ctx.html(page(stored, pictured(stored, ctx, kind), Wrong.NONE));
                }));
            }
        }
        return routes;
    }

    /** A picture is shown only while the newest record of that house speaks of it. */
    private void show(Context ctx) {
        String file = ctx.pathParam("file");
        boolean isSmall = "yes".equals(ctx.queryParam("small"));
        House house = Sent.house(store, ctx).house();
        boolean isRecorded =
                Attachments.of(house).stream().anyMatch(p -> p.file().equals(file));
        byte[] content = isRecorded ? files.find(file).orElse(new byte[0]) : new byte[0];
        if (content.length == 0 && isRecorded && isSmall) {
            ctx.status(HttpStatus.NOT_FOUND).contentType("image/svg+xml").result(Resources.text("away.svg"));
            return;
        }
        if (content.length == 0 && isRecorded && files.isDamaged(file)) {
            throw Failures.failure(ProblemKind.NOT_FOUND, DAMAGED, "Bring it in again, or take it from a copy.");
        }
        if (content.length == 0) {
            throw Failures.failure(ProblemKind.NOT_FOUND, "No such file is kept with this house.", NOT_HERE);
        }
        if (Document.isPdf(content)) {
            ctx.header("Content-Disposition", "attachment; filename=\"" + file.substring(0, 12) + ".pdf\"");
        }
        ctx.header("Cache-Control", "private, max-age=86400, immutable")
                .contentType(Document.isPdf(content) ? "application/pdf" : "image/jpeg")
                .result(isSmall ? Photograph.smaller(content, SMALL).orElse(content) : content);
    }

    private static Pictured pictured(StoredHouse stored, Context ctx, String kind) {
        String name = ctx.pathParam("name");
        Pictured found = Pictured.find(stored.house(), kind, name);
        if (found == null) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND,
                    "The house has nothing called " + name + " there.",
                    "Search for it by a part of its name.");
        }
        return found;
    }

    private void add(Context ctx, String kind) {
        StoredHouse stored = Sent.house(store, ctx);
        Pictured of = pictured(stored, ctx, kind);
        Sent.attempt(
                ctx,
                () -> {
                    boolean isDocument = Document.isPdf(Sent.bytes(ctx, PHOTO, Photograph.MOST_BYTES));
                    Photo photo = keep(ctx, files, Sent.field(ctx, "note"));
                    return put(
                            ctx,
                            stored,
                            of,
                            Sent.field(ctx, "of"),
                            about -> isDocument
                                    ? about.withDocuments(with(about.documents(), photo))
                                    : about.withPhotos(with(about.photos(), photo)));
                },
                wrong -> page(stored, of, wrong));
    }

    private static List<Photo> with(List<Photo> before, Photo one) {
        List<Photo> all = new ArrayList<>(before);
        all.add(one);
        return all;
    }

    private static List<Photo> without(List<Photo> before, String file) {
        return before.stream().filter(p -> !p.file().equals(file)).toList();
    }

    private void takeOff(Context ctx, String kind) {
        StoredHouse stored = Sent.house(store, ctx);
        Pictured of = pictured(stored, ctx, kind);
        String file = Sent.field(ctx, "file");
        Sent.attempt(
                ctx,
                () -> put(
                        ctx,
                        stored,
                        of,
                        of.deviceOf(file),
                        about -> about.withPhotos(without(about.photos(), file))
                                .withDocuments(without(about.documents(), file))),
                wrong -> page(stored, of, wrong));
    }

    private String put(Context ctx, StoredHouse stored, Pictured of, String device, UnaryOperator<Provenance> change) {
        House after = of.changed(stored.house(), device, change);
        Revision made = store.put(
                        after, Sent.revision(ctx), BoxPages.BY_PAGE, "Photographs or documents of " + of.said())
                .get();
        String to = new Paths(stored.house().id()).of(of.kind(), of.name());
        return Just.stored(to + (of.kind().equals(Pictured.BOXES) ? "/edit" : "/photos"), made);
    }

    /** A box has them on the page where it is recorded; a panel and a cable on one of their own. */
    private String page(StoredHouse stored, Pictured of, Wrong wrong) {
        if (of.kind().equals(Pictured.BOXES)) {
            return BoxPages.edited(
                    stored, Objects.requireNonNull(stored.house().boxes().get(of.name())), wrong);
        }
        Paths paths = new Paths(stored.house().id());
        return Sent.page(
                stored,
                new EditPage(
                        "Photographs and documents of " + of.said(),
                        "",
                        wrong,
                        entries(stored, of),
                        List.of(
                                new Section("Documents", "", of.documents(paths)),
                                new Section(
                                        "Done",
                                        "",
                                        List.of(
                                                new Link(paths.of(of.kind(), of.name()), "Its card", ""),
                                                new Link(paths.base() + "/history", "Undo", "")))),
                        Caution.forWhat(of.kind().equals(Pictured.PANELS) ? Leads.TO_A_SWITCH : Leads.TO_A_WIRE),
                        of.pictures(paths, files)));
    }

    /** {@return the house with other photographs and documents of a box, or of a device in it} */
    static House changed(House house, Box box, String device, UnaryOperator<Provenance> change) {
        return Pictured.of(box).changed(house, device, change);
    }

    /** Keeps the picture or document that came with a form, made harmless. */
    static Photo keep(Context ctx, Files files, String note) {
        byte[] sent = Sent.bytes(ctx, PHOTO, Photograph.MOST_BYTES);
        if (sent.length == 0) {
            throw Failures.failure(PHOTO, ProblemKind.MISSING, "No file came along.", "Choose one.");
        }
        String today = LocalDate.now(ZoneId.systemDefault()).toString();
        return new Photo(
                files.keep((Document.isPdf(sent) ? Document.clean(sent) : Photograph.clean(sent)).get()),
                today,
                note.isEmpty() ? null : note);
    }

    /** {@return the field of a form to bring a picture in with} */
    static Input input(String meaning) {
        return Input.typed(Input.Kind.PHOTO, PHOTO, "Photograph or document", "", meaning, false);
    }

    /** {@return the forms to bring in and take off photographs of a box} */
    static List<Entry> entries(StoredHouse stored, Box box) {
        return entries(stored, Pictured.of(box));
    }

    private static List<Entry> entries(StoredHouse stored, Pictured thing) {
        Paths paths = new Paths(stored.house().id());
        String action = paths.of(thing.kind(), thing.name()) + "/photos";
        Input from =
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number()));
        List<Input> inputs =
                new ArrayList<>(List.of(from, input("JPEG, PNG or PDF; where and with what it was made is not kept")));
        if (thing.kind().equals(Pictured.BOXES)) {
            List<Input.Choice> of = new ArrayList<>(List.of(new Input.Choice("", "the box")));
            of.addAll(BoxPages.choices(thing.devices()));
            inputs.add(Input.chosen(Input.Kind.LIST, "of", "It shows", "", "", of));
        }
        inputs.add(Input.typed(Input.Kind.TEXT, "note", "What is seen on it", "", "", false));
        List<Entry> entries = new ArrayList<>();
        entries.add(new Entry(
                action,
                thing.kind().equals(Pictured.BOXES)
                        ? "A photograph to name the wires by later, or a document"
                        : "A photograph or a document",
                inputs,
                "Keep it"));
        List<Input.Choice> kept = thing.parts().stream()
                .flatMap(p -> Stream.concat(p.about().photos().stream(), p.about().documents().stream())
                        .map(f -> new Input.Choice(f.file(), f.said(p.said()))))
                .toList();
        if (!kept.isEmpty()) {
            entries.add(new Entry(
                    action + OFF,
                    "Take one off the record; earlier revisions keep it",
                    List.of(from, Input.chosen(Input.Kind.LIST, "file", "Which", "", "", kept)),
                    "Take it off"));
        }
        return entries;
    }

    /** {@return the photographs of a box and of its devices; one whose file is away shows a picture that says so} */
    static List<Picture> of(Paths paths, Box box) {
        return Pictured.of(box).pictures(paths, name -> true);
    }

    /** {@return the documents of a box and of its devices} */
    static Section documents(String title, Paths paths, Box box) {
        return new Section(title, "", Pictured.of(box).documents(paths));
    }
}
