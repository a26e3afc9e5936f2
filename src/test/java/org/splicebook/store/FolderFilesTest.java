package org.splicebook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FolderFilesTest {
    private static final byte[] CONTENT = {1, 2, 3};

    @TempDir
    private Path folder;

    private List<Path> all() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(Files::isRegularFile).toList();
        }
    }

    @Test
    void sameContentIsKeptOnceUnderItsHash() throws IOException {
        FolderFiles files = new FolderFiles(folder.resolve("files"));
        assertThat(files.list()).isEmpty();
        String name = files.keep(CONTENT);
        assertThat(name).matches("[0-9a-f]{64}").isEqualTo(files.keep(CONTENT.clone()));
        assertThat(all()).hasSize(1);
        assertThat(files.list()).containsExactly(name);
        assertThat(new FolderFiles(folder.resolve("files")).find(name)).hasValue(CONTENT);
    }

    @Test
    void whatWasChangedOnTheDiskIsNotShownAndIsMendedByKeepingItAgain() throws IOException {
        FolderFiles files = new FolderFiles(folder);
        String name = files.keep(CONTENT);
        Files.write(all().get(0), new byte[] {9});
        assertThat(files.find(name)).isEmpty();
        assertThat(files.isDamaged(name)).isTrue();
        files.keep(CONTENT);
        assertThat(files.find(name)).hasValue(CONTENT);
        assertThat(files.isDamaged(name)).isFalse();
        assertThat(files.isDamaged("0".repeat(64))).as("not there at all").isFalse();
    }

    @Test
    void nameThatIsNoHashLeadsNowhere() throws IOException {
        Files.writeString(folder.resolve("secret"), "s");
        FolderFiles files = new FolderFiles(folder.resolve("files"));
        files.keep(CONTENT);
        for (String name : new String[] {"../secret", "..", "", "/etc/passwd", "a".repeat(63), "A".repeat(64)}) {
            assertThat(files.find(name)).as(name).isEmpty();
        }
    }

    @Test
    void whatIsHalfWrittenIsNotListed() throws IOException {
        FolderFiles files = new FolderFiles(folder);
        String name = files.keep(CONTENT);
        Files.writeString(folder.resolve(name.substring(0, 2)).resolve(name + "1.half"), "x");
        assertThat(files.list()).containsExactly(name);
    }
}
