package org.splicebook.loadflow;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** The house files that lie beside the tests. */
final class Houses {
    private Houses() {}

    static String text(String name) {
        try (InputStream in = Houses.class.getResourceAsStream(name + ".house.yaml")) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static House read(String text) {
        return HouseFiles.parse("house.yaml", text).get();
    }

    static LoadFlow flow(String name) {
        return LoadFlow.of(read(text(name)));
    }
}
