package org.splicebook.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Attachments;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Photo;
import org.splicebook.record.Provenance;
import org.splicebook.store.Document;
import org.splicebook.store.Files;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Photograph;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.Entry;
import org.splicebook.web.view.Input;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Picture;
import org.splicebook.web.view.Section;

/** Photographs of boxes and their devices: brought in, shown, taken off the record again. */
final class PhotoPages {
    private static final String FORM = "/houses/{house}/boxes/{name}/photos";
    private static final String PHOTO = "photo";

    private final HouseStore store;
    private final Files files;

    PhotoPages(HouseStore store, Files files) {
        this.store = store;
        this.files = files;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/houses/{house}/photos/{file}", this::show),
                Route.post(FORM, this::add),
                Route.post(FORM + "/off", this::takeOff));
    }

    /** A picture is shown only while the newest record of that house speaks of it. */
    private void show(Context ctx) {
        String file = ctx.pathParam("file");
        House house = Sent.house(store, ctx).house();
        byte[] content = Attachments.of(house).stream().anyMatch(p -> p.file().equals(file))
                ? files.find(file).orElse(new byte[0])
                : new byte[0];
        if (content.length == 0) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND,
                    "No such file is kept with this house.",
                    "It may have been taken off, or the file is not on this machine.");
        }
        if (Document.isPdf(content)) {
            ctx.header("Content-Disposition", "attachment; filename=\"" + file.substring(0, 12) + ".pdf\"");
        }
        ctx.header("Cache-Control", "private, max-age=86400, immutable")
                .contentType(Document.isPdf(content) ? "application/pdf" : "image/jpeg")
                .result(content);
    }

    private void add(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Box box = BoxPages.box(stored, ctx);
        Sent.attempt(
                ctx,
                () -> {
                    boolean isDocument = Document.isPdf(Sent.bytes(ctx, PHOTO, Photograph.MOST_BYTES));
                    Photo photo = keep(ctx, files, Sent.field(ctx, "note"));
                    return put(
                            ctx,
                            stored,
                            box,
                            Sent.field(ctx, "of"),
                            about -> isDocument
                                    ? about.withDocuments(with(about.documents(), photo))
                                    : about.withPhotos(with(about.photos(), photo)));
                },
                problems -> BoxPages.edited(stored, box, Sent.said(problems)));
    }

    private static List<Photo> with(List<Photo> before, Photo one) {
        List<Photo> all = new ArrayList<>(before);
        all.add(one);
        return all;
    }

    private static List<Photo> without(List<Photo> before, String file) {
        return before.stream().filter(p -> !p.file().equals(file)).toList();
    }

    private static boolean has(Provenance about, String file) {
        return Stream.concat(about.photos().stream(), about.documents().stream())
                .anyMatch(p -> p.file().equals(file));
    }

    private void takeOff(Context ctx) {
        StoredHouse stored = Sent.house(store, ctx);
        Box box = BoxPages.box(stored, ctx);
        String file = Sent.field(ctx, "file");
        Sent.attempt(
                ctx,
                () -> {
                    String of = box.devices().values().stream()
                            .filter(d -> has(d.about(), file))
                            .map(Device::name)
                            .findFirst()
                            .orElse("");
                    return put(
                            ctx,
                            stored,
                            box,
                            of,
                            about -> about.withPhotos(without(about.photos(), file))
                                    .withDocuments(without(about.documents(), file)));
                },
                problems -> BoxPages.edited(stored, box, Sent.said(problems)));
    }

    private String put(Context ctx, StoredHouse stored, Box box, String device, UnaryOperator<Provenance> change) {
        House after = changed(stored.house(), box, device, change);
        store.put(after, Sent.revision(ctx), BoxPages.BY_PAGE, "Photographs or documents of " + box.name())
                .get();
        return new Paths(stored.house().id()).of("boxes", box.name()) + "/edit";
    }

    /** {@return the house with other photographs and documents of a box, or of a device in it} */
    static House changed(House house, Box box, String device, UnaryOperator<Provenance> change) {
        Map<String, Box> boxes = new LinkedHashMap<>(house.boxes());
        if (device.isEmpty()) {
            boxes.put(box.name(), box.withAbout(change.apply(box.about())));
        } else {
            Device d = box.devices().get(device);
            if (d == null) {
                throw Failures.failure(
                        ProblemKind.NOT_FOUND, "There is no device " + device + " in it.", "Choose one that is.");
            }
            Map<String, Device> devices = new LinkedHashMap<>(box.devices());
            devices.put(device, d.withAbout(change.apply(d.about())));
            boxes.put(box.name(), box.withDevices(devices));
        }
        return house.withParts(house.panels(), house.cables(), boxes);
    }

    /** Keeps the picture or document that came with a form, made harmless. */
    static Photo keep(Context ctx, Files files, String note) {
        byte[] sent = Sent.bytes(ctx, PHOTO, Photograph.MOST_BYTES);
        if (sent.length == 0) {
            throw Failures.failure(ProblemKind.MISSING, "No file came along.", "Choose one.");
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
        Paths paths = new Paths(stored.house().id());
        String action = paths.of("boxes", box.name()) + "/photos";
        Input from =
                Input.hidden(Sent.REVISION, String.valueOf(stored.revision().number()));
        List<Input.Choice> of = new ArrayList<>(List.of(new Input.Choice("", "the box")));
        of.addAll(BoxPages.choices(List.copyOf(box.devices().keySet())));
        List<Entry> entries = new ArrayList<>();
        entries.add(new Entry(
                action,
                "A photograph to name the wires by later, or a document",
                List.of(
                        from,
                        input("JPEG, PNG or PDF; where and with what it was made is not kept"),
                        Input.chosen(Input.Kind.LIST, "of", "It shows", "", "", of),
                        Input.typed(Input.Kind.TEXT, "note", "What is seen on it", "", "", false)),
                "Keep it"));
        List<Input.Choice> kept = new ArrayList<>();
        of(paths, box)
                .forEach(p ->
                        kept.add(new Input.Choice(p.src().substring(p.src().lastIndexOf('/') + 1), p.words())));
        documents(paths, box)
                .forEach(l -> kept.add(new Input.Choice(l.to().substring(l.to().lastIndexOf('/') + 1), l.words())));
        if (!kept.isEmpty()) {
            entries.add(new Entry(
                    action + "/off",
                    "Take one off the record; earlier revisions keep it",
                    List.of(from, Input.chosen(Input.Kind.LIST, "file", "Which", "", "", kept)),
                    "Take it off"));
        }
        return entries;
    }

    /** {@return the photographs of a box and of its devices} */
    static List<Picture> of(Paths paths, Box box) {
        List<Picture> all = new ArrayList<>();
        box.about().photos().forEach(p -> all.add(picture(paths, "box " + box.name(), p)));
        box.devices().values().forEach(d -> d.about().photos().forEach(p -> all.add(picture(paths, d.name(), p))));
        return all;
    }

    /** {@return the documents of a box and of its devices} */
    static Section documents(String title, Paths paths, Box box) {
        return new Section(title, "", documents(paths, box));
    }

    private static List<Link> documents(Paths paths, Box box) {
        List<Link> all = new ArrayList<>();
        box.about().documents().forEach(p -> all.add(document(paths, "box " + box.name(), p)));
        box.devices().values().forEach(d -> d.about().documents().forEach(p -> all.add(document(paths, d.name(), p))));
        return all;
    }

    private static Link document(Paths paths, String of, Photo p) {
        Picture same = picture(paths, of, p);
        return new Link(same.src(), same.words(), "PDF");
    }

    private static Picture picture(Paths paths, String of, Photo p) {
        String words = of + (p.date() == null ? "" : ", " + p.date()) + (p.note() == null ? "" : ": " + p.note());
        return new Picture(paths.of("photos", p.file()), "Photograph of " + words, Objects.requireNonNull(words));
    }
}
