package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.problem.Problem;
import org.splicebook.record.House;

/** A folder of house files is read as one. */
class FolderTest {
    @TempDir
    Path folder;

    private void file(String name, String text) throws IOException {
        Files.writeString(folder.resolve(name), text);
    }

    @Test
    void sectionsOfSeveralFilesAreJoined() throws IOException {
        file(
                "house.yaml",
                "splicebook: 1\nhouse: a\npanels: {main: {}}\nsightings:\n  - {id: s1, date: 2026-03-14, at: K1, label: up}\n");
        file(
                "upstairs.yml",
                "splicebook: 1\ncables: {K1: {kind: NM, wires: 14/2, ends: [main, b1]}}\nboxes: {b1: {joints: [[K1.black]]}}\n");
        file("yard.yaml", "boxes: {b2: {}}\nsightings:\n  - {id: s2, date: 2026-03-14, at: b2, label: shed}\n");
        file("notes.txt", "not read");
        file("empty.yaml", "# nothing yet\n");
        House house = HouseFiles.read(folder).get();
        assertThat(house.boxes()).containsOnlyKeys("b1", "b2");
        assertThat(house.sightings()).hasSize(2);
    }

    @Test
    void noKeyMayStandTwiceAcrossFiles() throws IOException {
        file("a.yaml", "splicebook: 1\nhouse: a\nboxes: {b1: {}}\n");
        file("b.yaml", "house: a\nboxes: {b1: {}}\n");
        List<Problem> problems = HouseFiles.read(folder).problems();
        assertThat(problems)
                .extracting(p -> p.where().said())
                .containsExactly(folder.resolve("b.yaml") + ":1:1", folder.resolve("b.yaml") + ":2:9");
        assertThat(problems.get(0).said()).contains("\"house\"").contains(folder.resolve("a.yaml") + ":2:1");
    }

    @Test
    void anIdMayNotStandTwiceAcrossFiles() throws IOException {
        String sighting = "sightings: [{id: s1, date: 2026-03-14, at: b1, label: up}]\n";
        file("a.yaml", "splicebook: 1\nhouse: a\nboxes: {b1: {}}\n" + sighting);
        file("b.yaml", sighting);
        assertThat(HouseFiles.read(folder).problems())
                .singleElement()
                .satisfies(p -> assertThat(p.where().said()).isEqualTo(folder.resolve("b.yaml") + ":1:18"));
    }
}
