package org.splicebook.housefile;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.splicebook.record.House;

/** House files that lie beside the tests. */
final class Fixtures {
    private Fixtures() {}

    static String text(String name) {
        try (InputStream in = Fixtures.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static House house(String name) {
        return HouseFiles.parse(name, text(name)).get();
    }
}
