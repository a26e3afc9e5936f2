package org.splicebook.rules;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * How much a check found in a house; what was accepted is left out.
 *
 * @param house the house's id
 * @param title what people call it
 * @param pack the pack it was checked by
 * @param dangers found and a danger
 * @param found all that was found
 * @param possible what may be so
 * @param asked what rules need to know
 * @param accepted found and let stand
 * @param rules how often each rule found something, by its id
 */
public record Tally(
        String house,
        String title,
        String pack,
        int dangers,
        int found,
        int possible,
        int asked,
        int accepted,
        Map<String, Integer> rules) {
    /** Most dangers first, then most found; then by name. */
    public static final Comparator<Tally> WORST_FIRST = Comparator.comparingInt((Tally t) -> -t.dangers())
            .thenComparingInt(t -> -t.found())
            .thenComparing(Tally::house);

    public Tally {
        rules = Map.copyOf(rules);
    }

    /** {@return what a check comes to} */
    public static Tally of(Checked c) {
        Map<String, Integer> rules = new LinkedHashMap<>();
        c.open().stream()
                .filter(f -> f.certainty() == Certainty.FOUND)
                .forEach(f -> rules.merge(f.rule(), 1, Integer::sum));
        int dangers = (int) c.open().stream()
                .filter(f -> f.certainty() == Certainty.FOUND && f.severity() == Severity.DANGER)
                .count();
        return new Tally(
                c.house().id(),
                c.house().said(),
                c.pack().id(),
                dangers,
                count(c, Certainty.FOUND),
                count(c, Certainty.POSSIBLE),
                count(c, Certainty.ASKED),
                c.accepted().size(),
                rules);
    }

    private static int count(Checked c, Certainty certainty) {
        return (int) c.open().stream().filter(f -> f.certainty() == certainty).count();
    }
}
