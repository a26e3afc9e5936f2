package org.splicebook.rules;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Objects;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Protection;

/** Which findings ask for protection of the outlets that they name; {@code asks-protection.properties} has the rules. */
public final class AsksProtection {
    private static final Properties RULES = new Properties();

    static {
        try (InputStream in = AsksProtection.class.getResourceAsStream("asks-protection.properties")) {
            RULES.load(Objects.requireNonNull(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private AsksProtection() {}

    /** {@return what a finding asks its outlets to be protected against; null where it asks for something else} */
    public static @Nullable Protection of(Finding finding) {
        String word = RULES.getProperty(finding.rule());
        return word == null
                ? null
                : Protection.valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }
}
