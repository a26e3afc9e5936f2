package org.splicebook.web;

import java.awt.Dimension;
import java.util.Base64;
import java.util.Optional;
import org.splicebook.render.sheet.Sheet;
import org.splicebook.store.Files;
import org.splicebook.store.Photograph;

/** Makes photographs small enough for paper. */
final class Prints {
    /** Some 200 dots to an inch at the width that a sheet gives them. */
    private static final int LONGEST_EDGE = 660;

    private Prints() {}

    /** {@return the photograph of that name; empty where its file is not on this machine, or is no picture} */
    static Optional<Sheet.Print> find(Files files, String name) {
        return files.find(name)
                .flatMap(kept -> Photograph.smaller(kept, LONGEST_EDGE))
                .map(jpeg -> {
                    Dimension size = Photograph.size(jpeg);
                    return new Sheet.Print(Base64.getEncoder().encodeToString(jpeg), size.width, size.height);
                });
    }
}
