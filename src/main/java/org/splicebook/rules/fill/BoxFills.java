package org.splicebook.rules.fill;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.StandardBoxes;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.House;
import org.splicebook.record.StandardBox;
import org.splicebook.rules.fill.BoxFill.Fits;
import org.splicebook.rules.fill.BoxFill.Verdict;
import org.splicebook.rules.fill.FillTables.Method;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** Works out how full boxes are (NEC 314.16). */
public final class BoxFills {
    /** The edition where a house says none. */
    public static final int EDITION = 2023;

    private static final String OPEN_AIR = "none";
    /** Families of boxes on which a ring of the same family fits. */
    private static final Set<String> TAKES_RINGS = Set.of("round", "square-4", "square-4-11/16");

    private static final int BOXES_TOLD = 3;

    private BoxFills() {}

    /** {@return the edition that a house is judged by; {@link #EDITION} where it names none} */
    public static int edition(House house) {
        String said = house.code() == null ? "" : house.code().edition();
        return said.matches("(19|20)[0-9]{2}") ? Integer.parseInt(said) : EDITION;
    }

    /** {@return how full each box of a house is, by the count of an edition; joints in the open air left out} */
    public static List<BoxFill> of(Wiring wiring, int edition) {
        Map<String, WireUse> uses = Opened.uses(wiring);
        Map<String, List<Cable>> cables = Opened.cables(wiring.house());
        return wiring.house().boxes().values().stream()
                .map(b -> of(wiring.house(), uses, cables.getOrDefault(b.name(), List.of()), b, edition, true))
                .filter(f -> f.verdict() != Verdict.NO_BOX)
                .toList();
    }

    /** {@return the same of one box without what else would fit, which takes most of the work} */
    static BoxFill verdict(House house, Map<String, WireUse> uses, List<Cable> cables, Box box, int edition) {
        return of(house, uses, cables, box, edition, false);
    }

    /** {@return how full a box is, by the count of an edition} */
    public static BoxFill of(Wiring wiring, Box box, int edition) {
        List<Cable> cables = Opened.cables(wiring.house()).getOrDefault(box.name(), List.of());
        return of(wiring.house(), Opened.uses(wiring), cables, box, edition, true);
    }

    private static BoxFill of(
            House house, Map<String, WireUse> uses, List<Cable> cables, Box box, int edition, boolean withExtras) {
        Method method = FillTables.method(edition);
        Opened.Found found = Opened.of(house, uses, cables, box);
        Contents in = found.contents();
        Capacity capacity = Capacity.of(box.shell(), gangs(in));
        List<FillItem> items = Tally.of(in, method);
        Room used = Tally.used(items, in);
        Room holds = capacity.room();
        Verdict verdict = verdict(box, found, used, holds);
        boolean isNeeded = verdict == Verdict.TOO_FULL || verdict == Verdict.MAY_BE_TOO_FULL;
        return new BoxFill(
                box.name(),
                edition,
                method.title(),
                edition > FillTables.CHECKED_TO,
                verdict,
                items,
                used,
                capacity.lines(),
                holds,
                withExtras ? extras(in, method, holds) : List.of(),
                isNeeded && holds != null ? cures(box.shell(), used, holds) : List.of(),
                Stream.concat(capacity.notKnown().stream(), found.notKnown().stream())
                        .toList(),
                assumed(in, house),
                found.basis());
    }

    private static int gangs(Contents in) {
        return (int) Math.round(
                in.yokes().stream().mapToDouble(Contents.Yoke::fewestGangs).sum());
    }

    private static Verdict verdict(Box box, Opened.Found found, Room used, @Nullable Room holds) {
        if (box.shell() != null && box.shell().material().equals(OPEN_AIR)) {
            return Verdict.NO_BOX;
        }
        if (found.isPullBox()) {
            return Verdict.PULL_BOX;
        }
        if (holds == null) {
            return Verdict.VOLUME_NOT_KNOWN;
        }
        return used.exceeds(holds) ? Verdict.TOO_FULL : used.fits(holds) ? Verdict.FITS : Verdict.MAY_BE_TOO_FULL;
    }

    private static List<BoxFill.Extra> extras(Contents in, Method method, @Nullable Room holds) {
        List<BoxFill.Extra> all = new ArrayList<>();
        for (FillTables.Extra e : FillTables.EXTRAS) {
            Room used = Tally.used(in.with(e), method);
            Fits fits = holds == null
                    ? Fits.NOT_KNOWN
                    : used.fits(holds) ? Fits.YES : used.exceeds(holds) ? Fits.NO : Fits.NOT_KNOWN;
            all.add(new BoxFill.Extra(e.say(), fits, used));
        }
        return all;
    }

    private static List<String> cures(Box.@Nullable Shell shell, Room used, Room holds) {
        List<String> all = new ArrayList<>();
        Double most = used.most();
        double needed = most == null ? used.least() : most;
        double missing = needed - holds.least();
        String atLeast = most == null ? "at least " : "";
        if (missing > 0) {
            StandardBox size = shell == null ? null : shell.size();
            String ring = "An extension ring, plaster ring or raised cover marked " + atLeast + Room.inches(missing)
                    + " in3 or more";
            List<StandardBox> rings = size == null || !TAKES_RINGS.contains(size.family())
                    ? List.of()
                    : atLeast(missing)
                            .filter(b -> b.family().equals(size.family()))
                            .toList();
            all.add(
                    rings.isEmpty()
                            ? ring + "."
                            : ring + "; the standard extension ring "
                                    + rings.get(0).title() + " adds "
                                    + Room.inches(Capacity.inches(rings.get(0).volume())) + ".");
            List<String> boxes = atLeast(needed)
                    .filter(b -> size == null || b.family().equals(size.family()))
                    .limit(BOXES_TOLD)
                    .map(b -> b.title() + " (" + Room.inches(Capacity.inches(b.volume())) + ")")
                    .toList();
            all.add("A box of " + atLeast + Room.inches(needed) + " in3 or more"
                    + (boxes.isEmpty() ? "." : ": of the standard metal ones " + String.join(", ", boxes) + "."));
            all.add("Fewer wires: lead a cable to a box of its own.");
        }
        return all;
    }

    private static Stream<StandardBox> atLeast(double inches) {
        return StandardBoxes.all().values().stream()
                .filter(b -> Capacity.inches(b.volume()) >= inches - 1e-6)
                .sorted(Comparator.comparingDouble(b -> Capacity.inches(b.volume())));
    }

    private static List<String> assumed(Contents in, House house) {
        List<String> all = new ArrayList<>();
        if (house.code() != null && !house.code().country().equals("US")) {
            all.add("Counted by the code of the US; the house is judged by that of "
                    + house.code().country() + ", which may count otherwise or not at all.");
        }
        all.add("No ring, raised cover, barrier, fixture stud or terminal block beside those recorded.");
        all.add("Every device in the box is recorded.");
        if (!in.yokes().isEmpty()) {
            all.add("Pigtails are of the size of the wires that they are spliced to.");
        }
        return all;
    }

    /** {@return a verdict in a word or two} */
    public static String word(Verdict v) {
        return v.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
