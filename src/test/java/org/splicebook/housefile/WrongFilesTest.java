package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.problem.Problem;

/** Each way of being wrong is told with its place, what was found and what would be right. */
class WrongFilesTest {
    record Case(String name, String text, List<String> expected) {
        @Override
        public String toString() {
            return name;
        }
    }

    static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        for (String part : Fixtures.text("wrong-files.txt").split("(?m)^=== ")) {
            List<String> lines = part.lines().toList();
            if (cases.isEmpty() && !part.contains("\n! ")) {
                continue;
            }
            Stream<String> text = lines.stream().skip(1).filter(l -> !l.startsWith("! "));
            cases.add(new Case(
                    lines.get(0),
                    String.join("\n", text.toList()) + "\n",
                    lines.stream()
                            .filter(l -> l.startsWith("! "))
                            .map(l -> l.substring(2))
                            .toList()));
        }
        return cases;
    }

    @ParameterizedTest
    @MethodSource("cases")
    void everyProblemIsToldWithItsPlaceAndCure(Case c) {
        List<Problem> problems = HouseFiles.parse("f", c.text()).problems();
        List<String> found = new ArrayList<>();
        for (int i = 0; i < problems.size(); i++) {
            Problem p = problems.get(i);
            String head = p.kind() + " " + p.where().line() + ":" + p.where().column();
            String said = p.message() + " " + p.cure();
            String words = i < c.expected().size() ? c.expected().get(i).split(" ", 3)[2] : "";
            found.add(head + " " + (said.contains(words) ? words : said));
            assertThat(p.where().file()).isEqualTo("f");
            assertThat(p.message()).isNotBlank();
        }
        assertThat(found).isEqualTo(c.expected());
    }

    @Test
    void theTableHasManyCases() {
        assertThat(cases()).hasSizeGreaterThan(25);
    }

    @Test
    void aProblemSaysTheWayToItsPlace() {
        Problem p = HouseFiles.parse("f", "splicebook: 1\nhouse: a\nboxes:\n  b1:\n    joints: [[K1.black]]\n")
                .problems()
                .get(0);
        assertThat(p.where().path()).isEqualTo("boxes.b1.joints[0][0]");
        assertThat(p.said()).startsWith("f:5:15: There is no cable, device or source \"K1\".");
    }

    @Test
    void badWiringIsNeverRefused() {
        String text = """
                splicebook: 1
                house: a
                sources: {s: {system: split-phase 120/240, bond: main}}
                panels:
                  main:
                    supply: [s, F2]
                    breakers: {1: {rating: 15 A}, 1+3: {rating: 20 A}, 40: {rating: 15 A}}
                    spaces: 4
                    joints: [[1, K1.white, K1.black], [n, F1.black], [g, F2.white], [3, K1.bare, K2.black, n]]
                  sub: {supply: F1, bonded: yes, joints: [[n, F1.white, F2.black], [n, g]]}
                cables:
                  F1: {kind: SER, wires: 10/3+ground, ends: [main, sub]}
                  F2: {kind: SER, wires: 10/3+ground, ends: [sub, main]}
                  K1: {kind: NM, wires: 14/2+ground, ends: [main, b1]}
                  K2: {kind: NM, wires: 14/2, ends: [main, b1]}
                boxes:
                  b1:
                    devices: {lamp: {kind: luminaire}}
                    joints: [[K1.black, K2.black, K1.white], [lamp.hot, box, K2.white, lamp.ground]]
                """;
        assertThat(HouseFiles.parse("f", text).problems()).isEmpty();
    }
}
