package org.splicebook.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reply;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.render.ReplyText;
import org.splicebook.rewire.Drafts;
import org.splicebook.store.HouseStore;
import org.splicebook.store.StoredHouse;
import picocli.CommandLine.Option;

/** A draft to look at instead of the house. */
final class DraftOption {
    @Option(
            names = "--draft",
            paramLabel = "FILE",
            description = "Look at the house as it would be after the moves of this file; nothing is stored.")
    private @Nullable Path file;

    /** {@return the house as it is to be looked at} */
    House over(House record) {
        if (file == null) {
            return record;
        }
        Draft draft = DraftFiles.read(file, record).get().draft();
        return Drafts.of(draft, record).get();
    }

    /** {@return the answer to a question about the house as it is to be looked at} */
    Reply ask(HouseStore houses, String house, String question, Map<String, String> parameters) {
        if (file == null) {
            return houses.ask(question, house, parameters).get();
        }
        StoredHouse base = houses.findHouse(house).orElseThrow(() -> Houses.notFound(house));
        Draft draft = DraftFiles.read(file, base.house()).get().draft();
        return houses.askDraft(question, DraftDesk.drafted(draft, base), parameters)
                .get();
    }

    /** {@return a text for people, marked where it is of a draft} */
    String mark(String text) {
        return file == null ? text : ReplyText.DRAFT + "\n\n" + text;
    }

    /** {@return the same for programs} */
    ObjectNode mark(ObjectNode o) {
        return file == null ? o : o.put("draft", true);
    }
}
