package org.splicebook.store;

import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.jsontype.NamedType;
import java.util.stream.Stream;
import org.splicebook.record.Sighting;

/** Turns one sighting into text and back. Equal sightings have equal texts. */
public final class SightingText {
    private static final ObjectMapper JSON =
            JsonMapper.builder().addMixIn(Sighting.Seen.class, Form.class).build();

    static {
        for (Class<?> c : Sighting.Seen.class.getPermittedSubclasses()) {
            JSON.registerSubtypes(new NamedType(c, c.getSimpleName()));
        }
    }

    private SightingText() {}

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "form")
    private interface Form {}

    /** {@return the text} */
    public static String write(Sighting sighting) {
        try {
            return JSON.writeValueAsString(sighting);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /**
     * {@return the sighting}
     *
     * @throws IllegalStateException when the text is not one
     */
    public static Sighting read(String text) {
        try {
            return JSON.readValue(text, Sighting.class);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    /** {@return the forms a sighting may have} */
    static Stream<Class<?>> forms() {
        return Stream.of(Sighting.Seen.class.getPermittedSubclasses());
    }
}
