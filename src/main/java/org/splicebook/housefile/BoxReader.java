package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.BoxPart;
import org.splicebook.record.Device;
import org.splicebook.record.StandardBox;
import org.splicebook.record.Unit;

/** Reads boxes and their devices, their joints aside. */
final class BoxReader {
    /** The word for a spot in the open air. */
    static final String NONE = "none";

    private static final int MOST_CABLES = 200;
    private static final int MOST_GANGS = 12;
    private static final Map<String, String> CLAMPS = Map.of("inside", "inside", "outside", "outside", NONE, NONE);

    private final Known known;
    private final Problems problems;
    private final DeviceReader devices;

    BoxReader(Known known) {
        this.known = known;
        this.problems = known.problems;
        this.devices = new DeviceReader(problems);
    }

    Fields read(Node.Entry entry) {
        String name = entry.key().text();
        Fields f = Fields.of(entry.value(), Shapes.keys("box"), problems);
        Node.Scalar place = f.scalar("place");
        boolean placed = place != null && known.check(place, known.placeNames, "place");
        known.boxes.put(
                name,
                new Box(
                        name,
                        placed && place != null ? place.text() : null,
                        shell(f),
                        f.integer("cable-entries", 0, MOST_CABLES),
                        f.yesNo("hidden", false),
                        devices(name, f),
                        List.of(),
                        f.words("complete", Words.COMPLETE),
                        f.about()));
        return f;
    }

    private Map<String, Device> devices(String box, Fields f) {
        Map<String, Device> all = new LinkedHashMap<>();
        for (Node.Entry e : f.map("devices")) {
            String name = Values.name(e.key(), problems);
            if (name == null) {
                continue;
            }
            known.take(name, "a device", e.key().at());
            known.boxOfDevice.putIfAbsent(name, box);
            Device device = devices.read(name, e.value());
            if (device != null) {
                known.devices.putIfAbsent(name, device);
                all.put(name, device);
            }
        }
        return all;
    }

    private Box.@Nullable Shell shell(Fields box) {
        Node n = box.node("box");
        if (n == null) {
            return null;
        }
        if (n instanceof Node.Scalar s && s.text().equals(NONE)) {
            return new Box.Shell(NONE, null, null, null);
        }
        Fields f = Fields.of(n, Shapes.keys("shell"), problems);
        f.need("material", "Say what it is made of, for example material: steel.");
        return new Box.Shell(
                f.text("material", "unknown"),
                f.quantity("volume", Unit.Dimension.VOLUME, null),
                f.word("clamps", CLAMPS),
                f.quantity("depth", Unit.Dimension.LENGTH, null),
                size(f),
                f.integer("gangs", 1, MOST_GANGS),
                Values.notTooMany(f.list("parts"), f.at("parts"), problems).stream()
                        .map(this::part)
                        .flatMap(Optional::stream)
                        .toList(),
                f.note());
    }

    private Optional<BoxPart> part(Node n) {
        Fields f = Fields.of(n, Shapes.keys("box-part"), problems);
        f.need("kind", "Say what it is, for example kind: extension-ring.");
        BoxPart.Kind kind = f.word("kind", Words.BOX_PART);
        BoxPart part = kind == null
                ? null
                : new BoxPart(
                        kind,
                        size(f),
                        f.quantity("volume", Unit.Dimension.VOLUME, null),
                        f.text("material"),
                        WiresReader.size(f, "wire", problems),
                        f.note());
        return Optional.ofNullable(part);
    }

    private @Nullable StandardBox size(Fields f) {
        Node.Scalar s = f.scalar("size");
        StandardBox size = s == null ? null : StandardBoxes.all().get(s.text());
        if (s != null && size == null) {
            problems.error(
                    ProblemKind.BAD_VALUE,
                    s.at(),
                    s.said() + " is not a standard size of box.",
                    () -> Nearest.to(s.text(), StandardBoxes.all().keySet())
                            .map(near -> "Did you mean " + near + "?")
                            .orElse("The sizes: "
                                    + String.join(", ", StandardBoxes.all().keySet())
                                    + ". A box of another size has volume: instead."));
        }
        return size;
    }
}
