package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.splicebook.record.House;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Wiring;

/** The whole house is one of those that a partial record may be: nothing true of it may be left out, nothing certain may be untrue. */
class PartialHousesAreSoundTest {
    private static final Set<String> JUDGED = Set.of("feed", "return", "ground", "relies", "protected", "use");

    @Test
    void whatIsTrueMayBeAndWhatMustBeIsTrue() {
        Comparison.run(houses(0, 150), PartialHousesAreSoundTest::unsound);
    }

    @Test
    @Tag("full")
    void whatIsTrueMayBeAndWhatMustBeIsTrueOfManyHouses() {
        Comparison.run(houses(150, 1000), PartialHousesAreSoundTest::unsound);
    }

    private static Stream<House> houses(long from, long to) {
        return LongStream.range(from, to).mapToObj(seed -> RandomHouses.house(seed, Shape.SMALL));
    }

    private static List<String> unsound(House whole) {
        long seed = Long.parseLong(whole.id().substring("random-".length()));
        double share = 0.02 + 0.3 * (seed % 7) / 7;
        Wiring derived = Derivation.derive(Hidden.hide(whole, seed, share));
        return unsound(Oracle.facts(whole), derived).stream()
                .filter(line -> namesAJointOf(whole, line))
                .toList();
    }

    /** A joint that has lost its first member to hiding has another name; what is said of it cannot be looked up. */
    private static boolean namesAJointOf(House whole, String line) {
        int at = line.indexOf(" JOINT ");
        return at < 0
                || new Netlist(whole)
                        .byName.containsKey("joint " + line.substring(at + 7).split(": | ")[0]);
    }

    private static List<String> unsound(Facts truth, Wiring derived) {
        Facts said = Facts.of(derived);
        List<String> out = new ArrayList<>();
        for (Map.Entry<String, String> e : truth.lines.entrySet()) {
            String line = e.getKey();
            String kind = line.substring(0, line.indexOf(' '));
            boolean relation = Set.of("feed", "return", "ground", "use").contains(kind);
            if (relation && !said.lines.containsKey(line) && !overGroundWhileNeutralIsKnown(line, said)) {
                out.add(line + ": true (" + e.getValue() + "), yet not even possible as derived");
            }
            // What goes off in truth may go off as derived: by name, or as part of an open region.
            if (kind.equals("loss") && e.getValue().startsWith("LOST")) {
                String load = line.substring(line.lastIndexOf(' ') + 1);
                boolean inRegion = derived.openRegions().stream()
                        .anyMatch(r -> r.loadPoints().contains(load));
                if (!inRegion && !said.lines.containsKey(line)) {
                    out.add(line + ": true, yet not even possible as derived");
                }
            }
        }
        Set<String> sure = said.lines.entrySet().stream()
                .filter(e -> JUDGED.contains(e.getKey().substring(0, e.getKey().indexOf(' '))))
                .filter(e -> e.getValue().equals("MUST"))
                .map(Map.Entry::getKey)
                .collect(Collectors.toSet());
        for (String line : sure) {
            if (!"MUST".equals(truth.lines.get(line)) && !nothingToRelyFor(line, truth)) {
                out.add(line + ": certain as derived, yet in truth " + truth.lines.get(line));
            }
        }
        return out;
    }

    /** A return over ground stands only where no neutral is reached, so a possible neutral may hide it. */
    private static boolean overGroundWhileNeutralIsKnown(String line, Facts said) {
        return line.startsWith("return ")
                && line.contains(" GROUND ")
                && said.lines.containsKey(line.replace(" GROUND ", " NEUTRAL "));
    }

    /** Reliance and protection speak of worlds in which the load point has the conductor; where it never has, all is true. */
    private static boolean nothingToRelyFor(String line, Facts truth) {
        String[] w = line.split(" ");
        if (w[0].equals("relies")) {
            return truth.lines.keySet().stream().noneMatch(k -> k.startsWith("relies " + w[1] + " " + w[2] + " "));
        }
        return w[0].equals("protected")
                && truth.lines.keySet().stream().noneMatch(k -> k.startsWith("feed " + w[1] + " "));
    }
}
