package org.splicebook.housefile;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;

/** Reads house files: YAML 1.2, and so JSON too; one file, or a folder whose files are read as one. */
public final class HouseFiles {
    private HouseFiles() {}

    /**
     * Reads a file, or all {@code *.yaml} and {@code *.yml} files of a folder as one.
     *
     * @return the house, or all problems, each with file, line, column, what was found and what would be right
     */
    public static Result<House> read(Path fileOrFolder) {
        Problems problems = new Problems();
        List<SourceText> texts = new FolderReader(problems).read(fileOrFolder);
        return problems.any() ? new Result.Failed<>(problems.inOrder()) : parse(texts, problems);
    }

    /**
     * Reads a text.
     *
     * @param name what the problems call it
     * @param text YAML or JSON
     */
    public static Result<House> parse(String name, String text) {
        Problems problems = new Problems();
        return parse(List.of(new SourceText(name, text)), problems);
    }

    /**
     * {@return where in a file or folder its things are written: boxes, panels, breakers, cables, devices, sources and places by name;
     * nothing where it cannot be read}
     */
    public static Map<String, Where> positions(Path fileOrFolder) {
        Problems problems = new Problems();
        List<SourceText> texts = new FolderReader(problems).read(fileOrFolder);
        Optional<Node> whole = problems.any() ? Optional.empty() : new Merger(problems).merge(texts);
        return whole.map(Positions::of).orElse(Map.of());
    }

    /** {@return a warning that a rewrite would lose the comments of a text, if it has any} */
    public static Optional<Problem> commentsAtRisk(String name, String text) {
        int line = YamlReader.firstComment(name, text);
        return line == 0
                ? Optional.empty()
                : Optional.of(Problem.warning(
                        ProblemKind.WOULD_LOSE,
                        new Where(name, line, 1, ""),
                        "This file has comments, and a rewrite loses them.",
                        "Keep a copy, or move what they say into notes."));
    }

    /** {@return the JSON Schema (2020-12) of the house file} */
    public static String schema() {
        return Shapes.schema();
    }

    /** A file's name and its text. */
    record SourceText(String name, String text) {}

    private static Result<House> parse(List<SourceText> texts, Problems problems) {
        Optional<Node> whole = new Merger(problems).merge(texts);
        House house = whole.isPresent() ? new HouseReader(problems).read(whole.get()) : null;
        return house == null || problems.any() ? new Result.Failed<>(problems.inOrder()) : Result.ok(house);
    }
}
