package org.splicebook.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Attachments;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Photo;
import org.splicebook.record.Provenance;
import org.splicebook.store.Files;
import org.splicebook.web.view.Link;
import org.splicebook.web.view.Picture;

/**
 * What photographs and documents are kept of: a box with its devices, a panel, a cable.
 *
 * @param kind as in addresses: {@code boxes}, {@code panels} or {@code cables}
 * @param name its name
 * @param parts what of it may be shown: first itself, then each device by its name
 */
record Pictured(String kind, String name, List<Attachments.Part> parts) {
    static final String BOXES = "boxes";
    static final String PANELS = "panels";
    static final String CABLES = "cables";

    /** What the way to the forms for them is called. */
    static final String WORDS = "Photographs and documents of it";

    Pictured {
        parts = List.copyOf(parts);
    }

    static Pictured of(Box box) {
        return new Pictured(BOXES, box.name(), Attachments.parts(box));
    }

    static Pictured of(Panel panel) {
        return new Pictured(PANELS, panel.name(), Attachments.parts(panel));
    }

    static Pictured of(Cable cable) {
        return new Pictured(CABLES, cable.name(), Attachments.parts(cable));
    }

    /** {@return the thing of that kind and name; null where the house has none} */
    static @Nullable Pictured find(House house, String kind, String name) {
        Box box = kind.equals(BOXES) ? house.boxes().get(name) : null;
        Panel panel = kind.equals(PANELS) ? house.panels().get(name) : null;
        Cable cable = kind.equals(CABLES) ? house.cables().get(name) : null;
        return box != null ? of(box) : panel != null ? of(panel) : cable != null ? of(cable) : null;
    }

    /** {@return what it is, for example {@code panel main}} */
    String said() {
        return parts.get(0).said();
    }

    /** {@return the names of its devices} */
    List<String> devices() {
        return parts.stream().skip(1).map(Attachments.Part::said).toList();
    }

    /** {@return the device that a file is of; empty where it is of the thing itself} */
    String deviceOf(String file) {
        return parts.stream()
                .skip(1)
                .filter(p -> Stream.concat(p.about().photos().stream(), p.about().documents().stream())
                        .anyMatch(f -> f.file().equals(file)))
                .map(Attachments.Part::said)
                .findFirst()
                .orElse("");
    }

    /** {@return its photographs, those whose file is not on this machine marked as such} */
    List<Picture> pictures(Paths paths, Files files) {
        return pictures(paths, name -> files.find(name).isPresent());
    }

    /** {@return its photographs} */
    List<Picture> pictures(Paths paths, Predicate<String> isHere) {
        List<Picture> all = new ArrayList<>();
        parts.forEach(p ->
                p.about().photos().forEach(f -> all.add(picture(paths, p.said(), f, isHere.test(f.file())))));
        return all;
    }

    /** {@return its documents} */
    List<Link> documents(Paths paths) {
        List<Link> all = new ArrayList<>();
        parts.forEach(p -> p.about()
                .documents()
                .forEach(f -> all.add(new Link(paths.of("photos", f.file()), f.said(p.said()), "PDF"))));
        return all;
    }

    private static Picture picture(Paths paths, String of, Photo photo, boolean isHere) {
        String words = photo.said(of);
        return new Picture(paths.of("photos", photo.file()), "Photograph of " + words, words, isHere);
    }

    /**
     * {@return the house with other photographs and documents of it, or of a device in it}
     *
     * @param device the device's name; empty for the thing itself
     */
    House changed(House house, String device, UnaryOperator<Provenance> change) {
        Map<String, Box> boxes = new LinkedHashMap<>(house.boxes());
        Map<String, Panel> panels = new LinkedHashMap<>(house.panels());
        Map<String, Cable> cables = new LinkedHashMap<>(house.cables());
        if (!device.isEmpty() && !devices().contains(device)) {
            throw Failures.failure(
                    ProblemKind.NOT_FOUND, "There is no device " + device + " in it.", "Choose one that is.");
        }
        switch (kind) {
            case BOXES ->
                boxes.computeIfPresent(
                        name,
                        (n, b) -> device.isEmpty() ? b.withAbout(change.apply(b.about())) : changed(b, device, change));
            case PANELS -> panels.computeIfPresent(name, (n, p) -> p.withAbout(change.apply(p.about())));
            default -> cables.computeIfPresent(name, (n, c) -> c.withAbout(change.apply(c.about())));
        }
        return house.withParts(panels, cables, boxes);
    }

    private static Box changed(Box box, String device, UnaryOperator<Provenance> change) {
        Map<String, Device> devices = new LinkedHashMap<>(box.devices());
        devices.computeIfPresent(device, (n, d) -> d.withAbout(change.apply(d.about())));
        return box.withDevices(devices);
    }
}
