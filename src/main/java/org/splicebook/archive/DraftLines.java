package org.splicebook.archive;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.DraftState;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;

/** The drafts kept beside a house as lines of text, the newest version of each, as archives hold them. */
final class DraftLines {
    private static final ObjectMapper JSON = new ObjectMapper();

    private DraftLines() {}

    /** A draft, and who wrote it. */
    record Line(DraftState state, String who) {}

    static String write(List<KeptDraft> drafts) {
        StringBuilder out = new StringBuilder();
        for (KeptDraft d : drafts) {
            out.append(JSON.createObjectNode()
                            .put("text", DraftFiles.write(d.draft()))
                            .put("base", d.state().base())
                            .put("done", d.state().done())
                            .put("withdrawn", d.state().isWithdrawn())
                            .put("who", d.who()))
                    .append('\n');
        }
        return out.toString();
    }

    static List<Line> read(String house, String text) {
        List<Line> all = new ArrayList<>();
        for (String line : text.lines().toList()) {
            try {
                JsonNode o = JSON.readTree(line);
                var draft = DraftFiles.parseKept(o.path("text").asText()).get();
                if (!draft.house().equals(house)) {
                    throw wrong(house);
                }
                all.add(new Line(
                        new DraftState(
                                draft.with(o.path("base").asLong(), draft.moves()),
                                o.path("done").asInt(),
                                o.path("withdrawn").asBoolean()),
                        o.path("who").asText()));
            } catch (JsonProcessingException e) {
                throw wrong(house);
            }
        }
        return all;
    }

    /** Keeps them beside a house that is there; {@return whether the store has each as it was} */
    static boolean restore(HouseStore store, String house, List<Line> lines) {
        for (Line l : lines) {
            KeptDraft kept = store.putDraft(l.state(), 0, l.who()).get();
            boolean isSame = store.findDraft(house, kept.name())
                    .filter(d -> d.state().equals(l.state()))
                    .isPresent();
            if (!isSame) {
                return false;
            }
        }
        return true;
    }

    private static ProblemException wrong(String house) {
        return new ProblemException(Problem.error(
                ProblemKind.SYNTAX,
                Where.field(house),
                "A draft of this house cannot be read.",
                "Nothing was stored. Take another copy of the archive."));
    }
}
