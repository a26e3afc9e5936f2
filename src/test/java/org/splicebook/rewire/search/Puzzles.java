package org.splicebook.rewire.search;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.rules.Checks;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;

/** Small houses whose best change was found by hand: {@code puzzles.csv} tells it, and why. */
final class Puzzles {
    static final String TABLE = "/org/splicebook/rewire/puzzles/puzzles.csv";

    private static final Pack PACK = Packs.us(Packs.USUAL_EDITION);

    /** A house and what is wished for. */
    record Puzzle(String file, House house, Wish wish) {}

    private Puzzles() {}

    static List<Puzzle> all() throws IOException {
        List<Puzzle> all = new ArrayList<>();
        for (String line : text(TABLE).lines().skip(1).toList()) {
            String[] cells = line.split("\\|");
            House house = read(cells[0]);
            all.add(new Puzzle(cells[0], house, wish(house, cells[1])));
        }
        return all;
    }

    /** {@return the wish that is written, or that for the first finding of that rule or key to be cured} */
    static Wish wish(House house, String wanted) {
        return wanted.contains("=") ? Wish.parse(wanted).get() : new Wish.Cure(finding(house, wanted));
    }

    static String finding(House house, String rule) {
        return Checks.of(house, PACK).stream()
                .filter(f -> f.rule().equals(rule) || f.key().equals(rule))
                .map(Finding::key)
                .findFirst()
                .orElseThrow();
    }

    static House read(String file) throws IOException {
        String path = "/org/splicebook/" + file + ".house.yaml";
        return HouseFiles.parse(path, text(path)).get();
    }

    private static String text(String path) throws IOException {
        try (InputStream in = Objects.requireNonNull(Puzzles.class.getResourceAsStream(path), path)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
