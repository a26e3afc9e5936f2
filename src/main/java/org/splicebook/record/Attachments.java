package org.splicebook.record;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** The photographs and documents that a record speaks of. */
public final class Attachments {
    private Attachments() {}

    /**
     * Something that photographs and documents may be of.
     *
     * @param said what it is, for example {@code box attic-1}
     * @param about what is said of it
     */
    public record Part(String said, Provenance about) {}

    /** {@return a box, then its devices} */
    public static List<Part> parts(Box box) {
        List<Part> parts = new ArrayList<>(List.of(new Part("box " + box.name(), box.about())));
        box.devices().values().forEach(d -> parts.add(new Part(d.name(), d.about())));
        return parts;
    }

    /** {@return a panel} */
    public static List<Part> parts(Panel panel) {
        return List.of(new Part("panel " + panel.name(), panel.about()));
    }

    /** {@return a cable} */
    public static List<Part> parts(Cable cable) {
        return List.of(new Part("cable " + cable.name(), cable.about()));
    }

    /** {@return all of a house} */
    public static List<Photo> of(House house) {
        Stream<List<Part>> parts = Stream.of(
                        house.boxes().values().stream().map(Attachments::parts),
                        house.panels().values().stream().map(Attachments::parts),
                        house.cables().values().stream().map(Attachments::parts))
                .flatMap(s -> s);
        return parts.flatMap(List::stream)
                .map(Part::about)
                .flatMap(a -> Stream.concat(a.photos().stream(), a.documents().stream()))
                .toList();
    }
}
