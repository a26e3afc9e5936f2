package org.splicebook.graph;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** Parses a question's file: each line of its header, and that header and statement fit each other. */
final class QuestionParser {
    private static final Pattern HEADER_LINE =
            Pattern.compile("//\\s*([a-z-]+)(?:\\s+([A-Za-z]\\w*))?\\s*(?::\\s*(.*))?");
    private static final Pattern OTHERWISE = Pattern.compile("(.*?)\\s*\\[default:\\s*(.*?)\\s*]");
    private static final Pattern ONE_OF = Pattern.compile("(.*?)\\s*\\[one of:\\s*(.*?)\\s*]");
    private static final Pattern IN_WORDS = Pattern.compile("\\{(\\w+)}");
    private static final Pattern IN_CYPHER = Pattern.compile("\\$(\\w+)");
    /** Strings, quoted names and comments, in which a dollar sign is only a dollar sign. */
    private static final Pattern NOT_CODE = Pattern.compile(
            "'(?:\\\\.|[^'\\\\])*+'|\"(?:\\\\.|[^\"\\\\])*+\"|`[^`]*+`|//[^\\n]*+|/\\*.*?\\*/", Pattern.DOTALL);

    private final String id;
    private final String origin;
    private final String text;
    private final List<Problem> problems = new ArrayList<>();
    private final List<Question.Parameter> parameters = new ArrayList<>();
    private final Map<String, List<String>> choices = new HashMap<>();
    private List<String> columns = List.of();
    private String kind = "";
    private boolean acrossHouses;
    private String allowTrails = "";

    private QuestionParser(String id, String origin, String text) {
        this.id = id;
        this.origin = origin;
        this.text = text;
    }

    /**
     * Parses a file.
     *
     * @param id the file's name without its ending
     * @param origin where it lies, for people
     * @param text its text
     * @return the question, or every problem of its header with its line
     */
    static Result<QuestionFile> parse(String id, String origin, String text) {
        QuestionParser parser = new QuestionParser(id, origin, text);
        QuestionFile file = parser.parse();
        return parser.problems.isEmpty() ? Result.ok(file) : new Result.Failed<>(parser.problems);
    }

    private QuestionFile parse() {
        List<String> lines = text.lines().toList();
        String first = lines.isEmpty() ? "" : lines.get(0);
        String words = first.startsWith("//") ? first.substring(2).strip() : "";
        if (words.isEmpty()) {
            say(
                    1,
                    ProblemKind.MISSING,
                    "The first line does not state the question.",
                    "Begin with // and the question in words.");
        }
        for (int i = 1; i < lines.size() && lines.get(i).startsWith("//"); i++) {
            headerLine(i + 1, lines.get(i));
        }
        check(words);
        return new QuestionFile(
                new Question(
                        id,
                        words,
                        parameters,
                        columns,
                        "answer".equals(kind) ? Question.Kind.ANSWER : Question.Kind.LISTING,
                        acrossHouses,
                        origin),
                choices,
                text,
                allowTrails);
    }

    private void headerLine(int line, String comment) {
        Matcher m = HEADER_LINE.matcher(comment.strip());
        String key = m.matches() ? m.group(1) : "";
        String name = m.matches() && m.group(2) != null ? m.group(2) : "";
        String value = m.matches() && m.group(3) != null ? m.group(3).strip() : "";
        switch (key) {
            case "parameter" -> parameter(line, name, value);
            case "columns" -> columns = List.of(value.split("\\s*,\\s*"));
            case "kind" -> {
                kind = value;
                if (!value.equals("answer") && !value.equals("listing")) {
                    say(line, ProblemKind.BAD_VALUE, "The kind is \"" + value + "\".", "It is answer or listing.");
                }
            }
            case "across-houses" -> acrossHouses = true;
            case "allow-trails" -> {
                allowTrails = value;
                if (value.isEmpty()) {
                    say(
                            line,
                            ProblemKind.MISSING,
                            "allow-trails gives no reason.",
                            "Write // allow-trails: and the reason.");
                }
            }
            case "note" -> {}
            default ->
                say(
                        line,
                        ProblemKind.UNKNOWN_KEY,
                        "The header has a line that is not known: " + comment.strip(),
                        "Known are parameter NAME:, columns:, kind:, across-houses, allow-trails:, note:. "
                                + "A comment that is not of the header goes below the first line of Cypher.");
        }
    }

    private void parameter(int line, String name, String value) {
        if (name.isEmpty() || value.isEmpty()) {
            say(
                    line,
                    ProblemKind.MISSING,
                    "A parameter needs a name and a meaning.",
                    "Write // parameter box: a box, for example bench [default: any]");
            return;
        }
        if (parameters.stream().anyMatch(p -> p.name().equals(name)) || name.equals("house")) {
            say(line, ProblemKind.DUPLICATE, "The parameter " + name + " is there already.", "Give it another name.");
        }
        Matcher withDefault = OTHERWISE.matcher(value);
        String otherwise = withDefault.matches() ? withDefault.group(2) : "";
        String meaning = withDefault.matches() ? withDefault.group(1) : value;
        Matcher withChoice = ONE_OF.matcher(meaning);
        if (withChoice.matches()) {
            List<String> choice = List.of(withChoice.group(2).split("\\s*,\\s*"));
            choices.put(name, choice);
            meaning = withChoice.group(1) + ": " + String.join(", ", choice);
            if (!otherwise.isEmpty() && !choice.contains(otherwise)) {
                say(line, ProblemKind.BAD_VALUE, "The default " + otherwise + " is not one of the values.", "Add it.");
            }
        }
        parameters.add(new Question.Parameter(name, meaning, otherwise));
    }

    private void check(String words) {
        if (kind.isEmpty()) {
            say(
                    1,
                    ProblemKind.MISSING,
                    "The header does not say the kind.",
                    "Write // kind: answer or // kind: listing.");
        }
        if (columns.isEmpty()) {
            say(
                    1,
                    ProblemKind.MISSING,
                    "The header does not name the columns.",
                    "Write // columns: and their names, with commas.");
        } else if (kind.equals("answer") && !startsAsAnswer()) {
            say(
                    1,
                    ProblemKind.BAD_VALUE,
                    "The columns of an answer are " + String.join(", ", columns) + ".",
                    "They begin with subject, status, basis.");
        }
        Map<String, Question.Parameter> known = parameters.stream()
                .collect(Collectors.toMap(Question.Parameter::name, Function.identity(), (a, b) -> a));
        Set<String> used = found(IN_CYPHER, NOT_CODE.matcher(text).replaceAll(" "));
        if (!used.remove("house") && !acrossHouses) {
            say(
                    1,
                    ProblemKind.MISSING,
                    "Nothing in it asks for one house.",
                    "Begin with a MATCH on {house: $house, ...}, or write // across-houses.");
        }
        for (String name : used) {
            if (!known.containsKey(name)) {
                say(
                        1,
                        ProblemKind.DANGLING_NAME,
                        "$" + name + " is no parameter.",
                        "Write // parameter " + name + ": and its meaning.");
            }
        }
        for (String name : found(IN_WORDS, words)) {
            if (!known.containsKey(name)) {
                say(
                        1,
                        ProblemKind.DANGLING_NAME,
                        "{" + name + "} is no parameter.",
                        "Write // parameter " + name + ": and its meaning.");
            }
        }
        for (String name : known.keySet()) {
            if (!used.contains(name)) {
                say(
                        1,
                        ProblemKind.BAD_VALUE,
                        "The parameter " + name + " is not used.",
                        "Use $" + name + ", or take its line out.");
            }
        }
    }

    private boolean startsAsAnswer() {
        return columns.size() >= 3 && columns.subList(0, 3).equals(QuestionFile.ANSWER_COLUMNS);
    }

    private static Set<String> found(Pattern pattern, String in) {
        return pattern.matcher(in)
                .results()
                .map((MatchResult r) -> r.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private void say(int line, ProblemKind kind, String found, String cure) {
        problems.add(Problem.error(kind, new Where(origin, line, 1, ""), found, cure));
    }
}
