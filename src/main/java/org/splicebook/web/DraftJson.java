package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.render.Json;
import org.splicebook.store.DraftState;
import org.splicebook.store.KeptDraft;

/** A kept draft as JSON and back, and its entity tag. */
final class DraftJson {
    private DraftJson() {}

    static ObjectNode write(KeptDraft d) {
        ObjectNode o = Json.object();
        o.put("house", d.draft().house());
        o.put("draft", d.name());
        o.put("reason", d.draft().reason());
        o.put("status", d.state().status().word());
        o.put("revision", d.state().base());
        o.put("moves", d.draft().moves().size());
        o.put("done", d.state().done());
        o.put("version", d.version());
        o.put("stored", d.stored().toString());
        o.put("who", d.who());
        o.put("text", DraftFiles.write(d.draft()));
        o.put("etag", tag(d.version()));
        return o;
    }

    static KeptDraft read(JsonNode o) {
        return new KeptDraft(
                new DraftState(
                        DraftFiles.parseKept(o.path("text").asText()).get(),
                        o.path("done").asInt(),
                        o.path("status").asText().equals(DraftState.Status.WITHDRAWN.word())),
                o.path("version").asLong(),
                Instant.parse(o.path("stored").asText()),
                o.path("who").asText());
    }

    /** {@return the entity tag of a version of a draft} */
    static String tag(long version) {
        return "\"draft-" + version + "\"";
    }

    /** {@return the version that a write was made from, 0 for none, from its If-Match and If-None-Match} */
    static long expected(@Nullable String ifMatch, @Nullable String ifNoneMatch, Optional<KeptDraft> newest) {
        long version = newest.map(KeptDraft::version).orElse(0L);
        if (ifMatch != null) {
            if (version > 0 && ifMatch.trim().equals(tag(version))) {
                return version;
            }
            throw new ProblemException(Problem.error(
                    ProblemKind.STALE,
                    Where.NOWHERE,
                    version == 0
                            ? "There is no such draft."
                            : "The newest version is " + version + ", with ETag " + tag(version) + ".",
                    "Read it again, make the change there, and send it again."));
        }
        if (ifNoneMatch != null && ifNoneMatch.trim().equals("*")) {
            return 0;
        }
        throw Failures.failure(
                ProblemKind.PRECONDITION_MISSING,
                "The write does not say which version of the draft it was made from.",
                "Send If-Match with the ETag of the version you read, or If-None-Match: * for a new draft.");
    }
}
