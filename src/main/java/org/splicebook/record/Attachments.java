package org.splicebook.record;

import java.util.List;
import java.util.stream.Stream;

/** The photographs and documents that a record speaks of. */
public final class Attachments {
    private Attachments() {}

    /** {@return all of a house} */
    public static List<Photo> of(House house) {
        Stream<Provenance> parts = Stream.of(
                        house.boxes().values().stream().map(Box::about),
                        house.boxes().values().stream()
                                .flatMap(b -> b.devices().values().stream())
                                .map(Device::about),
                        house.panels().values().stream().map(Panel::about),
                        house.cables().values().stream().map(Cable::about))
                .flatMap(s -> s);
        return parts.flatMap(a -> Stream.concat(a.photos().stream(), a.documents().stream()))
                .toList();
    }
}
