package org.splicebook.answer;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Finds the names that come nearest to one that nothing answers to. */
public final class Nearest {
    private static final int TOLD = 5;

    private Nearest() {}

    /** {@return up to five of the names, those with the fewest letters to change first} */
    public static List<String> to(String name, Collection<String> names) {
        String wanted = name.toLowerCase(Locale.ROOT);
        return names.stream()
                .distinct()
                .sorted(Comparator.comparingInt((String n) -> changes(wanted, n.toLowerCase(Locale.ROOT)))
                        .thenComparing(Comparator.naturalOrder()))
                .limit(TOLD)
                .toList();
    }

    /** {@return "Nearest are a, b.", or what to say where there is nothing to offer} */
    public static String cure(String name, Collection<String> names) {
        List<String> near = to(name, names);
        return near.isEmpty() ? "There is none of that kind." : "Nearest are " + String.join(", ", near) + ".";
    }

    /** How many letters must be put in, left out or replaced (Levenshtein). */
    private static int changes(String a, String b) {
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.length(); j++) {
                int replaced = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, Math.min(row[j], row[j - 1]) + 1);
            }
        }
        return row[b.length()];
    }
}
