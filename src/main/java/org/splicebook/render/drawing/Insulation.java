package org.splicebook.render.drawing;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Objects;
import java.util.Properties;
import org.splicebook.record.Wire;

/**
 * How an insulation colour is drawn.
 *
 * @param name the colour as written, always told beside the line
 * @param colour the colour of the line
 * @param dashes its dashes; empty for an unbroken line
 * @param isKnown whether the colour has one of its own in the table; else only the casing is drawn
 */
record Insulation(String name, String colour, String dashes, boolean isKnown) {
    /** What shows between the dashes. */
    static final String CASING = "#d8d8d8";

    private static final Properties TABLE = read();

    static Insulation of(Wire wire) {
        return of(wire.metal() ? wire.name() : wire.colour());
    }

    static Insulation of(String colour) {
        String found = TABLE.getProperty(colour.toLowerCase(Locale.ROOT), "none 1 6");
        int space = found.indexOf(' ');
        String hex = found.substring(0, space);
        String dashes = found.substring(space + 1).trim();
        return new Insulation(colour, hex, dashes.equals("none") ? "" : dashes, !hex.equals("none"));
    }

    private static Properties read() {
        Properties table = new Properties();
        try (InputStream in = Insulation.class.getResourceAsStream("insulation.properties")) {
            table.load(Objects.requireNonNull(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return table;
    }
}
