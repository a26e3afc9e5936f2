package org.splicebook.answer;

import java.time.Instant;
import java.util.Map;
import org.splicebook.record.Ordered;

/**
 * What was asked, of what.
 *
 * @param question the question's id, for example {@code what-goes-off}
 * @param words the question in words, its parameters filled in
 * @param house the house's id; empty for a question across houses
 * @param houseName what people call it
 * @param revision the revision answered from; 0 across houses
 * @param stored when that revision was stored
 * @param parameters the parameters as given
 * @param draft whether it is a draft, which every output marks
 */
public record Heading(
        String question,
        String words,
        String house,
        String houseName,
        long revision,
        Instant stored,
        Map<String, String> parameters,
        boolean draft) {
    public Heading {
        parameters = Ordered.map(parameters);
    }
}
