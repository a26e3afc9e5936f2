package org.splicebook.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

/** The sample house's page explains all that a check finds there, and nothing that it does not find. */
class SampleHousePageTest {
    private static final Path HOUSE = Path.of("sample-house");
    private static final Pattern ROW =
            Pattern.compile("\\| ([a-z-]+) \\| (found|possible|asked) \\| (.*?) \\| (.+) \\|");
    private static final Pattern NAME = Pattern.compile("`([^`]+)`");

    @Test
    void pageAndCheckSayTheSame() throws IOException {
        assertThat(explained()).isEqualTo(found());
    }

    @Test
    void everyRowHasAReason() throws IOException {
        assertThat(rows()).isNotEmpty().allSatisfy(r -> assertThat(r.group(4)).hasSizeGreaterThan(10));
    }

    private static Set<String> found() {
        Set<String> all = new TreeSet<>();
        Checks.of(HouseFiles.read(HOUSE).get(), Packs.us(2023))
                .forEach(f -> all.add(f.rule() + " " + f.certainty().word() + " " + f.subject()));
        return all;
    }

    private static Set<String> explained() throws IOException {
        Set<String> all = new TreeSet<>();
        for (Matcher row : rows()) {
            Matcher name = NAME.matcher(row.group(3));
            while (name.find()) {
                all.add(row.group(1) + " " + row.group(2) + " " + name.group(1));
            }
        }
        return all;
    }

    private static List<Matcher> rows() throws IOException {
        return Files.readAllLines(HOUSE.resolve("README.md")).stream()
                .map(ROW::matcher)
                .filter(Matcher::matches)
                .toList();
    }
}
