package org.splicebook.housefile;

import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;
import org.snakeyaml.engine.v2.schema.FailsafeSchema;

/** Trusted YAML, such as this program writes, as maps, lists and scalars. What people send is read by the reader of house files. */
public final class PlainYaml {
    private PlainYaml() {}

    /** {@return the text with every scalar a string, as in a house file} */
    public static Object strings(String yaml) {
        return new Load(LoadSettings.builder().setSchema(new FailsafeSchema()).build()).loadFromString(yaml);
    }

    /** {@return the text with numbers and booleans as such} */
    public static Object typed(String yaml) {
        return new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(yaml);
    }
}
