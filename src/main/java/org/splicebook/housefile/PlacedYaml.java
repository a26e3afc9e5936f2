package org.splicebook.housefile;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** YAML that people write, with the place of everything in it, read under the same limits as a house file. */
public final class PlacedYaml {
    private PlacedYaml() {}

    /** {@return the document of a plain file, or all that is wrong with it} */
    public static Result<Node> read(Path file) {
        Problems problems = new Problems();
        List<HouseFiles.SourceText> texts = new FolderReader(problems).read(file);
        if (problems.any()) {
            return new Result.Failed<>(problems.inOrder());
        }
        if (texts.size() != 1) {
            return Result.failed(Problem.error(
                    ProblemKind.BAD_PATH,
                    new Where(file.toString(), 0, 0, ""),
                    texts.size() + " files stand in this folder.",
                    "Name the one that is meant."));
        }
        return parse(texts.get(0).name(), texts.get(0).text());
    }

    /**
     * {@return the document of a text, or all that is wrong with it}
     *
     * @param name what the problems call it
     */
    public static Result<Node> parse(String name, String text) {
        Problems problems = new Problems();
        Optional<Node> node = YamlReader.read(name, text, Limits.NODES, problems);
        if (problems.any()) {
            return new Result.Failed<>(problems.inOrder());
        }
        return node.map(Result::ok)
                .orElseGet(() -> Result.failed(Problem.error(
                        ProblemKind.MISSING,
                        new Where(name, 1, 1, ""),
                        "Nothing stands in it.",
                        "Write what it is to say.")));
    }
}
