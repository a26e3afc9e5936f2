package org.splicebook.housefile;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Reads the bytes of a house file, or of the files of a folder. Only plain files are opened; a link that leads out of
 * the folder, a pipe or a device is refused by name before a byte is read.
 */
final class FolderReader {
    static final String SIZES = "A house file, or a folder of them, has at most " + Limits.BYTES / 1_000_000 + " MB.";

    private final Problems problems;
    private int bytesLeft = Limits.BYTES;

    FolderReader(Problems problems) {
        this.problems = problems;
    }

    List<HouseFiles.SourceText> read(Path path) {
        try {
            if (Files.isDirectory(path)) {
                return readFolder(path);
            }
            if (!Files.exists(path)) {
                wrong(ProblemKind.NOT_FOUND, path.toString(), "There is no such file or folder.", "Look at the path.");
                return List.of();
            }
            if (!Files.isRegularFile(path)) {
                wrong(
                        ProblemKind.BAD_PATH,
                        path.toString(),
                        "This is not a plain file.",
                        "Give a YAML file or a folder.");
                return List.of();
            }
            String text = readFile(path, path.toString());
            return text == null ? List.of() : List.of(new HouseFiles.SourceText(path.toString(), text));
        } catch (IOException | SecurityException e) {
            wrong(
                    ProblemKind.BAD_PATH,
                    path.toString(),
                    "It cannot be read: " + e.getClass().getSimpleName() + ".",
                    "Look at its permissions.");
            return List.of();
        }
    }

    private List<HouseFiles.SourceText> readFolder(Path folder) throws IOException {
        List<Path> files;
        try (Stream<Path> all = Files.list(folder)) {
            files = all.filter(FolderReader::isYaml)
                    .limit(Limits.FILES + 1L)
                    .sorted()
                    .toList();
        }
        if (files.isEmpty()) {
            wrong(
                    ProblemKind.NOT_FOUND,
                    folder.toString(),
                    "The folder has no house file.",
                    "Its files end in .yaml or .yml.");
        }
        if (files.size() > Limits.FILES) {
            wrong(
                    ProblemKind.TOO_LARGE,
                    folder.toString(),
                    "The folder has more than " + Limits.FILES + " files.",
                    "Keep one house to a folder.");
            return List.of();
        }
        Path real = folder.toRealPath();
        List<HouseFiles.SourceText> texts = new ArrayList<>();
        for (Path file : files) {
            String text = mayRead(file, real) ? readFile(file, file.toString(), LinkOption.NOFOLLOW_LINKS) : null;
            if (text != null) {
                texts.add(new HouseFiles.SourceText(file.toString(), text));
            }
        }
        return texts;
    }

    private static boolean isYaml(Path p) {
        String name = String.valueOf(p.getFileName()).toLowerCase(Locale.ROOT);
        return !name.startsWith(".") && (name.endsWith(".yaml") || name.endsWith(".yml"));
    }

    private boolean mayRead(Path file, Path folder) {
        String name = file.toString();
        try {
            if (!file.toRealPath().startsWith(folder)) {
                wrong(ProblemKind.BAD_PATH, name, "This link leads out of the folder.", "Put the file itself here.");
                return false;
            }
        } catch (IOException e) {
            wrong(ProblemKind.BAD_PATH, name, "This link leads nowhere.", "Take it out, or put the file itself here.");
            return false;
        }
        if (Files.isSymbolicLink(file) || !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
            wrong(
                    ProblemKind.BAD_PATH,
                    name,
                    "This is not a plain file.",
                    "Put the file itself here, and nothing else.");
            return false;
        }
        return true;
    }

    private @Nullable String readFile(Path file, String name, OpenOption... how) throws IOException {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file, how)) {
            bytes = in.readNBytes(bytesLeft + 1);
        }
        if (bytes.length > bytesLeft) {
            wrong(ProblemKind.TOO_LARGE, name, "The file is too large.", SIZES);
            return null;
        }
        bytesLeft -= bytes.length;
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException e) {
            wrong(ProblemKind.SYNTAX, name, "The file is not text in UTF-8.", "Save it as UTF-8.");
            return null;
        }
    }

    private void wrong(ProblemKind kind, String file, String message, String cure) {
        problems.error(kind, new Where(file, 0, 0, ""), message, cure);
    }
}
