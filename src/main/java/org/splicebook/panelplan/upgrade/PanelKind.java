package org.splicebook.panelplan.upgrade;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * A panel that can be hung, of no make.
 *
 * @param word what people ask for it by: {@code 200-40}
 * @param title what it is
 * @param spaces how many spaces
 * @param rating bus rating in amperes
 * @param main rating of its main in amperes
 * @param tandem spaces whose label allows a tandem
 * @param circuits how many poles the label allows
 * @param branch the largest breaker beside the main, in amperes
 * @param interlock the top space of a breaker that its interlock holds off while the main is on; 0 where none is made
 * @param interrupting amperes that its breakers clear
 */
public record PanelKind(
        String word,
        String title,
        int spaces,
        int rating,
        int main,
        Set<Integer> tandem,
        int circuits,
        int branch,
        int interlock,
        int interrupting) {
    public PanelKind {
        tandem = Collections.unmodifiableSet(new TreeSet<>(tandem));
    }

    /** {@return the words of all panels} */
    public static Set<String> words() {
        return UpgradeData.rows("panels").keySet();
    }

    /** {@return all panels} */
    public static List<PanelKind> all() {
        return words().stream().map(w -> find(w).get()).toList();
    }

    /** {@return the panel of that word, or what there is} */
    public static Result<PanelKind> find(String word) {
        Map<String, String> row = UpgradeData.rows("panels").get(word);
        if (row == null) {
            return Result.failed(Problem.error(
                    ProblemKind.BAD_VALUE,
                    Where.field("panel"),
                    "There is no panel '" + word + "'.",
                    "There are " + String.join(", ", words()) + ": amperes and spaces."));
        }
        return Result.ok(new PanelKind(
                word,
                row.getOrDefault("title", word),
                number(row, "spaces"),
                number(row, "rating"),
                number(row, "main"),
                range(row.getOrDefault("tandem", "none")),
                number(row, "circuits"),
                number(row, "branch"),
                number(row, "interlock"),
                number(row, "interrupting")));
    }

    private static int number(Map<String, String> row, String key) {
        return Integer.parseInt(row.getOrDefault(key, "0"));
    }

    private static Set<Integer> range(String said) {
        Set<Integer> all = new TreeSet<>();
        if (said.contains("-")) {
            String[] ends = said.split("-", 2);
            for (int i = Integer.parseInt(ends[0]); i <= Integer.parseInt(ends[1]); i++) {
                all.add(i);
            }
        }
        return all;
    }
}
