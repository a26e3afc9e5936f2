package org.splicebook.rules;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A pack as it is written: what it says of each rule, some of it edition by edition.
 *
 * @param title what people call it
 * @param editions the editions that it tells apart; none where it tells none
 * @param countries the words for a country by which a house's record asks for it
 * @param rules what it says of each rule, by id
 */
record PackSource(String title, List<Integer> editions, List<String> countries, Map<String, RuleSource> rules) {
    PackSource {
        editions = List.copyOf(editions);
        countries = List.copyOf(countries);
    }

    /**
     * Words that may differ by edition. What stands under year 0 holds for all.
     *
     * @param said the words, by the year from which they hold
     */
    record ByEdition(TreeMap<Integer, List<String>> said) {
        static final ByEdition NOTHING = new ByEdition(new TreeMap<>());

        /** {@return what is said for the newest edition that is not newer} */
        List<String> at(int edition) {
            Map.Entry<Integer, List<String>> e = said.floorEntry(edition);
            return e == null ? List.of() : e.getValue();
        }

        String wordAt(int edition) {
            return String.join(", ", at(edition));
        }
    }

    /** What a pack says of a rule; the parts are those of {@link RuleText}, and from which edition on there is such a rule. */
    record RuleSource(
            String title,
            Severity severity,
            boolean hazard,
            int from,
            @Nullable Integer since,
            ByEdition article,
            ByEdition mark,
            String cure,
            boolean licensed,
            Map<String, ByEdition> values) {
        RuleText at(String id, int edition) {
            Map<String, List<String>> of = new LinkedHashMap<>();
            values.forEach((name, v) -> of.put(name, v.at(edition)));
            return new RuleText(
                    id,
                    title,
                    severity,
                    hazard,
                    since,
                    article.wordAt(edition),
                    Mark.said(mark.wordAt(edition)),
                    cure,
                    licensed,
                    of,
                    "");
        }
    }

    /** {@return the rules that an edition has; 0 where the pack tells none apart} */
    Map<String, RuleText> at(int edition) {
        Map<String, RuleText> of = new LinkedHashMap<>();
        rules.forEach((id, r) -> {
            if (r.from() <= edition) {
                of.put(id, r.at(id, edition));
            }
        });
        return of;
    }
}
