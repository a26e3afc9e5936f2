package org.splicebook.archive;

import com.fasterxml.jackson.annotation.JsonIgnoreProperties;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Map;
import org.splicebook.store.Revision;

/**
 * What an archive holds.
 *
 * @param format always {@link #FORMAT}
 * @param version the version of the format
 * @param made when it was written, ISO 8601
 * @param houses the houses
 * @param properties the properties
 * @param entries every other entry of the archive with the SHA-256 of its bytes, in hexadecimal
 */
@JsonIgnoreProperties(ignoreUnknown = true)
record Manifest(
        String format,
        int version,
        String made,
        List<Item> houses,
        List<Item> properties,
        Map<String, String> entries) {
    static final String FORMAT = "splicebook-archive";
    static final int VERSION = 1;
    static final String NAME = "manifest.json";

    private static final ObjectMapper JSON = new ObjectMapper();

    /** A house or a property and its revisions, oldest first. */
    @JsonIgnoreProperties(ignoreUnknown = true)
    record Item(String id, List<Step> revisions) {}

    /** A revision: what is told of it. Its record is the entry of its number. */
    @JsonIgnoreProperties(ignoreUnknown = true)
    record Step(long number, String name, String stored, String who, String why, boolean deleted) {
        static Step of(Revision r) {
            return new Step(r.number(), r.name(), r.stored().toString(), r.who(), r.why(), r.deleted());
        }
    }

    String write() {
        try {
            return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(this);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /** {@return the manifest of a text} */
    static Manifest read(String text) throws JsonProcessingException {
        return JSON.readValue(text, Manifest.class);
    }

    /** {@return the entry with the record of a revision} */
    static String entry(String folder, String id, long number) {
        return String.format(java.util.Locale.ROOT, "%s/%s/%06d.yaml", folder, id, number);
    }

    /** {@return the entry with what is kept of a kind beside a house} */
    static String beside(String kind, String id) {
        return "houses/" + id + "/" + kind + "s.jsonl";
    }

    /** {@return the entry with the drafts of a house} */
    static String drafts(String id) {
        return "houses/" + id + "/drafts.jsonl";
    }

    /** {@return the entry with a photograph or document} */
    static String file(String name) {
        return "files/" + name;
    }

    /** {@return the entry with the appended sightings of a house} */
    static String sightings(String id) {
        return "houses/" + id + "/sightings.jsonl";
    }
}
