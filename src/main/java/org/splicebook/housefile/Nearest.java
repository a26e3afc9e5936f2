package org.splicebook.housefile;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that was probably meant. */
final class Nearest {
    private static final int LOOKED_AT = 2_000;

    private Nearest() {}

    /** {@return the candidate nearest to a word, if one is near: at most a third of it is to be changed} */
    static Optional<String> to(String word, Collection<String> candidates) {
        String best = null;
        int least = Math.max(1, Math.min(3, word.length() / 3)) + 1;
        int looked = 0;
        for (String c : candidates) {
            if (looked++ == LOOKED_AT) {
                break;
            }
            if (Math.abs(c.length() - word.length()) < least) {
                int d = distance(word.toLowerCase(Locale.ROOT), c.toLowerCase(Locale.ROOT));
                if (d < least) {
                    least = d;
                    best = c;
                }
            }
        }
        return Optional.ofNullable(best);
    }

    /** {@return "Did you mean x?", or what there is to choose from} */
    static String cure(String word, Collection<String> candidates, String whatThereIs) {
        return to(word, candidates)
                .map(n -> "Did you mean " + n + "?")
                .orElseGet(() -> candidates.isEmpty()
                        ? "There are no " + whatThereIs + " here."
                        : "The " + whatThereIs + ": " + Said.list(candidates) + ".");
    }

    /** {@return how many letters must be put in, taken out, changed or swapped with their neighbour} */
    static int distance(String a, String b) {
        int[][] d = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    d[i][j] = i + j;
                    continue;
                }
                int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
                d[i][j] = Math.min(Math.min(d[i - 1][j], d[i][j - 1]) + 1, d[i - 1][j - 1] + change);
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
