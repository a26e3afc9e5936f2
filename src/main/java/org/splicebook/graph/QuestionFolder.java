package org.splicebook.graph;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.FileSystem;
import java.nio.file.FileSystemAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Where the files of questions are read from: a folder, or the program itself. */
final class QuestionFolder {
    private static final String ENDING = ".cypher";
    private static final long LARGEST = 100_000;

    private QuestionFolder() {}

    /** {@return the text of each file of the folder whose name ends in .cypher, by the path that people know it by} */
    static Map<String, String> read(Path folder) throws IOException {
        return read(folder, folder + folder.getFileSystem().getSeparator());
    }

    /** {@return the questions that the program brings} */
    static Map<String, String> builtIn() {
        URL url = QuestionFolder.class.getResource("/org/splicebook/queries");
        if (url == null) {
            throw new IllegalStateException("the folder queries is not in the program");
        }
        try {
            return builtIn(url.toURI());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Map<String, String> builtIn(URI uri) throws IOException {
        if (!uri.getScheme().equals("jar")) {
            return read(Path.of(uri), "queries/");
        }
        try (FileSystem jar = FileSystems.newFileSystem(uri, Map.of())) {
            return read(jar.getPath("/org/splicebook/queries"), "queries/");
        } catch (FileSystemAlreadyExistsException e) {
            return read(Path.of(uri), "queries/");
        }
    }

    private static Map<String, String> read(Path folder, String prefix) throws IOException {
        Map<String, String> texts = new TreeMap<>();
        for (Path file : files(folder)) {
            texts.put(prefix + file.getFileName(), Files.size(file) > LARGEST ? "" : Files.readString(file));
        }
        return texts;
    }

    private static List<Path> files(Path folder) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(f -> f.toString().endsWith(ENDING) && Files.isRegularFile(f))
                    .toList();
        }
    }

    /** {@return the id of the question in that file: its name without the ending} */
    static String id(String origin) {
        String name = origin.substring(Math.max(origin.lastIndexOf('/'), origin.lastIndexOf('\\')) + 1);
        return name.substring(0, name.length() - ENDING.length());
    }
}
