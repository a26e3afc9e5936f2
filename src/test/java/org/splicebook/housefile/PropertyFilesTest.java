package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.property.Properties;
import org.splicebook.record.Property;

class PropertyFilesTest {
    private static final String ROW = Properties.text("alder-row.yaml");

    @Test
    void whatIsWrittenIsReadAgainTheSame() {
        Property p = PropertyFiles.parse("row", ROW).get().property();
        assertThat(p.parts().keySet()).containsExactly("common", "14a", "14b");
        assertThat(p.linksComplete()).isTrue();
        assertThat(PropertyFiles.parse("again", PropertyFiles.write(p)).get().property())
                .isEqualTo(p);
    }

    @Test
    void anEmptyListOfWhatIsCompleteClaimsNothing() {
        Property p = PropertyFiles.parse("row", ROW.replace("complete: [links]", "complete: []"))
                .get()
                .property();
        assertThat(p.linksComplete()).isFalse();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "property: alder-row\\n | property: Alder Row\\n | 2 | is not an id",
                "to: 14a, source | to: 14c, source | 21 | no unit or common part",
                "point: to-14a,  |  | 21 | point is missing",
                "type: two-room, level: 1 | type: two-rooms, level: 1 | 17 | no type",
                "house: alder-row-14b | house: alder-row-14a | 18 | the record of 14a already",
                "counts: common, in: common | counts: common, inn: common | 26 | key \"inn\" is not known",
                "counts: 14b, in: 14b | counts: 14b, in: 14a | 28 | is counted by m-14a already",
                "from: 14a, point: to-14b | from: 14b, point: to-14b | 23 | from 14b to itself",
                "splicebook-property: 1 | splicebook-property: 2 | 1 | version",
                "complete: [links] | complete: [all] | 4 | not one of the words"
            })
    void whatIsWrongIsToldAtItsLine(String was, String is, int line, String said) {
        String text = ROW.replace(was.replace("\\n", "\n"), is == null ? "" : is.replace("\\n", "\n"));
        assertThat(text).isNotEqualTo(ROW);
        Result<PropertyFiles.Written> read = PropertyFiles.parse("row", text);
        assertThat(read.isOk()).isFalse();
        assertThat(read.problems()).anySatisfy((Problem p) -> {
            assertThat(p.where().line()).isEqualTo(line);
            assertThat(p.message()).contains(said);
            assertThat(p.cure()).isNotEmpty();
        });
    }
}
