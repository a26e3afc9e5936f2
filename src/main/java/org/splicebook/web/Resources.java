package org.splicebook.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Properties;

/** The text files that come with this package. */
final class Resources {
    private Resources() {}

    static String text(String name) {
        try (InputStream in = Resources.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("missing from the program: " + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return the one script of others that pages use, out of its jar, in whichever version that has} */
    static String htmx() {
        Properties about = new Properties();
        try (InputStream in = open("/META-INF/maven/org.webjars.npm/htmx.org/pom.properties")) {
            about.load(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        try (InputStream in =
                open("/META-INF/resources/webjars/htmx.org/" + about.getProperty("version") + "/dist/htmx.min.js")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static InputStream open(String name) {
        return Objects.requireNonNull(Resources.class.getResourceAsStream(name), name);
    }
}
