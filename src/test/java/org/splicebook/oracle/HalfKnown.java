package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.CableEnd;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Panel;
import org.splicebook.record.Ref;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.evidence.Expiry;

/**
 * A house as it is, what is on record of it, and sightings that are true, with a fixed share of what goes wrong in real ones.
 *
 * @param truth the house as it is
 * @param record what is on record
 * @param box the box to be opened
 * @param sightings the sightings that still stand
 * @param hazard what was done to it
 */
record HalfKnown(House truth, House record, String box, List<Sighting> sightings, Hazard hazard) {
    /** What goes wrong beside the oddities that every random house has: second feeds, islands joined, subpanels, loads across two hots. */
    enum Hazard {
        NONE,
        /** A box of which every wire was tested; in every second such house, a small one, all hots anywhere, and only landings in the panels are not known. */
        TESTED,
        /** Something was added to the wiring after the sightings. */
        STALE,
        /** A panel that nobody put on record. */
        PANEL_NOT_LISTED
    }

    /** {@return the house of that seed} */
    static HalfKnown of(long seed) {
        Hazard hazard = Hazard.values()[(int) (seed % 4)];
        boolean hotsTested = isLandingsHidden(seed);
        Shape shape =
                hotsTested ? new Shape(4, 9, (int) (seed / 8 % 4)) : seed % 100 == 48 ? Shape.MIDDLE : Shape.SMALL;
        House truth = RandomHouses.house(seed, shape);
        House record = hotsTested
                ? Hidden.hideLandings(truth, seed, 0.3 + 2 * share(seed))
                : Hidden.hide(truth, seed, share(seed));
        Random random = new Random(seed * 13 + 1);
        List<String> boxes = new ArrayList<>(record.boxes().keySet());
        if (boxes.isEmpty()) {
            return of(seed + 8);
        }
        String box = boxes.get(random.nextInt(boxes.size()));
        return switch (hazard) {
            case NONE ->
                new HalfKnown(
                        truth,
                        record,
                        box,
                        new TrueSightings(truth, seed).anywhere(5).all(),
                        hazard);
            case TESTED -> {
                TrueSightings made = new TrueSightings(truth, seed).anywhere(2);
                yield new HalfKnown(
                        truth,
                        record,
                        box,
                        (hotsTested ? made.everyHotWire(record) : made.everyWireOf(box, record)).all(),
                        hazard);
            }
            case STALE -> stale(seed, shape, truth, record, box);
            case PANEL_NOT_LISTED -> new HalfKnown(truth, withoutPanel(record), box, List.of(), hazard);
        };
    }

    /** {@return a house of that seed of which some is told that nobody saw} */
    static HalfKnown hearsay(long seed) {
        House truth = RandomHouses.house(seed, Shape.SMALL);
        List<String> boxes = new ArrayList<>(truth.boxes().keySet());
        String box = boxes.get(new Random(seed * 17 + 3).nextInt(boxes.size()));
        return new HalfKnown(truth, Unseen.of(truth, seed), box, List.of(), Hazard.NONE);
    }

    /** {@return whether nothing is hidden but landings in panels, and every hot is tested} */
    static boolean isLandingsHidden(long seed) {
        return seed % 8 == 5;
    }

    /** {@return how much of a house is hidden, by seed} */
    static double share(long seed) {
        return 0.005 + 0.3 * (seed / 4 % 7) / 7;
    }

    /** The sightings were made before one more oddity came into the house. */
    private static HalfKnown stale(long seed, Shape shape, House truth, House record, String box) {
        House before = RandomHouses.house(seed, new Shape(shape.breakers(), shape.loadPoints(), shape.oddities() - 1));
        if (!before.boxes().containsKey(box)
                || !before.panels().keySet().equals(truth.panels().keySet())) {
            return new HalfKnown(truth, record, box, List.of(), Hazard.STALE);
        }
        House then = Hidden.hide(before, seed, share(seed));
        House now = merged(before, then, truth, record);
        List<Sighting> made = new TrueSightings(before, seed)
                .anywhere(2)
                .everyWireOf(box, then)
                .all();
        return new HalfKnown(truth, now, box, Expiry.standing(then, now, made), Hazard.STALE);
    }

    /** What did not change stays as it was on record; what changed or is new comes from a second look. */
    private static House merged(House before, House then, House truth, House record) {
        Map<String, Box> boxes = new LinkedHashMap<>();
        truth.boxes()
                .forEach((n, b) -> boxes.put(
                        n,
                        b.equals(before.boxes().get(n))
                                ? then.boxes().get(n)
                                : record.boxes().get(n)));
        Map<String, Cable> cables = new LinkedHashMap<>();
        truth.cables()
                .forEach((n, c) -> cables.put(
                        n,
                        c.equals(before.cables().get(n))
                                ? then.cables().get(n)
                                : record.cables().get(n)));
        Map<String, Panel> panels = new LinkedHashMap<>();
        truth.panels()
                .forEach((n, p) -> panels.put(
                        n,
                        p.equals(before.panels().get(n))
                                ? then.panels().get(n)
                                : record.panels().get(n)));
        return with(record, panels, cables, boxes);
    }

    /** The record without its last subpanel: cables to it end nobody knows where. */
    private static House withoutPanel(House record) {
        String last = record.panels().keySet().stream().reduce("", (a, b) -> b);
        if (record.panels().size() < 2) {
            return record;
        }
        Map<String, Panel> panels = new LinkedHashMap<>(record.panels());
        panels.remove(last);
        Map<String, Cable> cables = new LinkedHashMap<>();
        record.cables()
                .forEach((n, c) -> cables.put(
                        n,
                        new Cable(
                                n,
                                c.kind(),
                                c.shorthand(),
                                c.wires(),
                                c.ends().stream()
                                        .map(e -> last.equals(e.boxOrNull()) ? new CableEnd.Unknown() : e)
                                        .toList(),
                                c.through(),
                                c.length(),
                                c.about())));
        return with(record, panels, cables, record.boxes());
    }

    private static House with(House h, Map<String, Panel> panels, Map<String, Cable> cables, Map<String, Box> boxes) {
        return h.withParts(panels, cables, boxes);
    }

    /** {@return whether the box is complete, and every wire end in it is in a joint} */
    boolean isOpenedAndComplete() {
        Box b = record.boxes().get(box);
        return b.complete() != null
                && b.complete().size() == 4
                && b.joints().stream()
                        .map(Joint::members)
                        .flatMap(List::stream)
                        .anyMatch(m -> m instanceof Ref.WireEnd);
    }
}
