package org.splicebook.rewire.place;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.splicebook.answer.Nearest;
import org.splicebook.housefile.Node;
import org.splicebook.housefile.PlacedYaml;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Breaker;
import org.splicebook.record.House;
import org.splicebook.record.Ordered;
import org.splicebook.record.Protection;

/**
 * What protection costs beside other protection, as {@code placement.yaml} or a file of one's own says.
 *
 * @param figures whole figures by group and name: {@code breaker 1 ground-fault}, {@code open box}, {@code move}
 */
public record Costs(Map<String, Integer> figures) {
    private static final String OWN = "placement.yaml";
    private static final String MORE = "breaker more";

    /** So much at most for one thing, so that no sum of them can run over. */
    private static final int MOST = 1_000_000;

    private static final Costs STANDARD = standardOnes();

    public Costs {
        figures = Ordered.map(figures);
    }

    /** {@return the program's own} */
    public static Costs standard() {
        return STANDARD;
    }

    /** {@return the program's own with what a file says otherwise, or all that is wrong with the file} */
    public static Result<Costs> read(Path file) {
        return over(PlacedYaml.read(file));
    }

    /** {@return the same of a text, which problems call by that name} */
    public static Result<Costs> parse(String name, String text) {
        return over(PlacedYaml.parse(name, text));
    }

    private static Result<Costs> over(Result<Node> read) {
        if (!read.isOk()) {
            return new Result.Failed<>(read.problems());
        }
        List<Problem> problems = new ArrayList<>();
        Map<String, Integer> all = new LinkedHashMap<>(STANDARD.figures);
        figures("", read.get(), problems).forEach((name, figure) -> {
            if (all.containsKey(name)) {
                all.put(name, figure.value());
            } else {
                problems.add(Problem.error(
                        ProblemKind.UNKNOWN_KEY,
                        figure.at().at(),
                        "No cost is called " + name + ".",
                        Nearest.cure(name, STANDARD.figures.keySet())));
            }
        });
        return problems.isEmpty() ? Result.ok(new Costs(all)) : new Result.Failed<>(problems);
    }

    private record Figure(int value, Node at) {}

    private static Map<String, Figure> figures(String group, Node node, List<Problem> problems) {
        Map<String, Figure> all = new LinkedHashMap<>();
        if (node instanceof Node.Entries m) {
            for (Node.Entry e : m.entries()) {
                all.putAll(figures((group + " " + e.key().text()).strip(), e.value(), problems));
            }
        } else if (node instanceof Node.Scalar s
                && s.text().matches("[0-9]{1,7}")
                && Integer.parseInt(s.text()) <= MOST
                && !group.isEmpty()) {
            all.put(group, new Figure(Integer.parseInt(s.text()), node));
        } else {
            problems.add(Problem.error(
                    ProblemKind.BAD_VALUE,
                    node.at(),
                    group.isEmpty() ? "This is no list of costs." : "The cost of " + group + " is no whole figure.",
                    "Write a whole figure up to " + MOST + ", as in open: {box: 15}."));
        }
        return all;
    }

    private static Costs standardOnes() {
        try (InputStream in = Costs.class.getResourceAsStream(OWN)) {
            String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
            List<Problem> problems = new ArrayList<>();
            Map<String, Integer> all = new LinkedHashMap<>();
            figures("", PlacedYaml.parse(OWN, text).get(), problems).forEach((k, v) -> all.put(k, v.value()));
            if (!problems.isEmpty()) {
                throw new IllegalStateException(problems.toString());
            }
            return new Costs(all);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return what a protective breaker costs} */
    int breaker(Breaker is) {
        Set<Protection> protects = is.protects();
        String words = Wanted.FUNCTIONS.stream()
                .filter(protects::contains)
                .map(Protection::word)
                .collect(Collectors.joining(" "));
        String name = "breaker " + is.spaces().size() + " " + words;
        return figures.containsKey(name) ? figure(name) : figure(MORE);
    }

    /** {@return what a device of that kind costs} */
    int device(String kind) {
        return figure("device " + kind);
    }

    /** {@return what it costs to open a box or panel} */
    int open(House house, String site) {
        return figure(house.panels().containsKey(site) ? "open panel" : "open box");
    }

    /** {@return what it costs to move a wire} */
    int move() {
        return figure("move");
    }

    private int figure(String name) {
        return Objects.requireNonNull(figures.get(name), name);
    }
}
