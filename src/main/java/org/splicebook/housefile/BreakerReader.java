package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Breaker;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Protection;

/** Reads the breakers and fuses of one panel. */
final class BreakerReader {
    private static final Pattern SPACE = Pattern.compile("[1-9][0-9]{0,2}[a-d]?");

    private final Problems problems;
    private final Map<String, Breaker> all = new LinkedHashMap<>();

    BreakerReader(Problems problems) {
        this.problems = problems;
    }

    Map<String, Breaker> all() {
        return all;
    }

    /** {@return every space that a breaker or fuse is in} */
    Set<String> spaces() {
        Set<String> spaces = new LinkedHashSet<>();
        all.values().forEach(b -> spaces.addAll(b.spaces()));
        return spaces;
    }

    static boolean isSpace(Node.Scalar s, Problems problems) {
        boolean right = SPACE.matcher(s.text()).matches();
        if (!right) {
            notASpace(s, problems);
        }
        return right;
    }

    private static void notASpace(Node.Scalar s, Problems problems) {
        problems.error(
                ProblemKind.BAD_NAME,
                s.at(),
                s.said() + " is not a space of a panel.",
                "Write its number; 5a and 5b for the halves of a tandem, 2+4 for two poles.");
    }

    void read(List<Node.Entry> entries, OvercurrentType type) {
        for (Node.Entry e : entries) {
            List<String> spaces = List.of(e.key().text().split("\\+", -1));
            Fields f = Fields.of(e.value(), Shapes.keys("breaker"), problems);
            Breaker breaker = breaker(spaces, type, f);
            if (!spaces.stream().allMatch(s -> SPACE.matcher(s).matches())) {
                notASpace(e.key(), problems);
            } else if (new LinkedHashSet<>(spaces).size() < spaces.size()) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        e.key().at(),
                        "The breaker " + breaker.key() + " names a space twice.",
                        "Name each space once.");
            } else if (all.put(breaker.key(), breaker) != null) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        e.key().at(),
                        "The key " + breaker.key() + " is a breaker and a fuse.",
                        "Keep one of them.");
            }
        }
    }

    private static Breaker breaker(List<String> spaces, OvercurrentType type, Fields f) {
        Set<Protection> protects = protects(f);
        return new Breaker(
                spaces,
                type,
                f.amperes("rating"),
                protects,
                f.yesNo("neutral", !protects.isEmpty()),
                f.yesNo("opens-neutral"),
                f.yesNo("common-trip", type == OvercurrentType.BREAKER),
                f.word("position", Words.POSITION, Breaker.Position.ON),
                f.text("label"),
                f.about());
    }

    static Set<Protection> protects(Fields f) {
        Set<Protection> protects = f.words("protects", Words.BESIDE_OVERCURRENT);
        return protects == null ? Set.of() : protects;
    }
}
