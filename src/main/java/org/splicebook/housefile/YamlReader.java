package org.splicebook.housefile;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.ReaderException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.schema.FailsafeSchema;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Reads YAML 1.2 (and so JSON) into {@link Node}s, one event after another, and stops at the first sign of a text made
 * to do harm: too deep, too many parts, anchors and aliases, tags.
 */
final class YamlReader {
    private static final int LONGEST_PATH = 120;

    private final String file;
    private final Problems problems;
    private final int mostNodes;
    private final Deque<Open> open = new ArrayDeque<>();
    private @Nullable Node root;
    private int nodes;

    private YamlReader(String file, Problems problems, int mostNodes) {
        this.file = file;
        this.problems = problems;
        this.mostNodes = mostNodes;
    }

    /** A list or map that has not ended. */
    private static final class Open {
        final boolean map;
        final Where at;
        final List<Node> items = new ArrayList<>();
        final List<Node.Entry> entries = new ArrayList<>();
        final Map<String, Where> keys = new HashMap<>();
        Node.@Nullable Scalar key;
        boolean twice;

        Open(boolean map, Where at) {
            this.map = map;
            this.at = at;
        }
    }

    /**
     * {@return the document, or nothing when it is empty or cannot be read, which the problems say}
     *
     * @param mostNodes how many nodes it may have
     */
    static Optional<Node> read(String file, String text, int mostNodes, Problems problems) {
        return new YamlReader(file, problems, mostNodes).read(text);
    }

    /** The same, where an empty text is a problem too. */
    static Optional<Node> readSome(String file, String text, Problems problems) {
        Optional<Node> whole = read(file, text, Limits.NODES, problems);
        if (whole.isEmpty() && !problems.any()) {
            problems.error(
                    ProblemKind.MISSING,
                    new Where(file, 1, 1, ""),
                    "Nothing stands in it.",
                    "Write what it is to say.");
        }
        return whole;
    }

    /** {@return the line of the first comment of a text; 0 when it has none or cannot be read} */
    static int firstComment(String file, String text) {
        try {
            for (Event e : new Parse(settings(file, true)).parseString(text)) {
                if (e.getEventId() == Event.ID.Comment && isComment(e)) {
                    return e.getStartMark().map(Mark::getLine).orElse(0) + 1;
                }
            }
        } catch (YamlEngineException e) {
            return 0;
        }
        return 0;
    }

    private static boolean isComment(Event e) {
        return e instanceof org.snakeyaml.engine.v2.events.CommentEvent c
                && c.getCommentType() != org.snakeyaml.engine.v2.comments.CommentType.BLANK_LINE;
    }

    private static LoadSettings settings(String file, boolean comments) {
        return LoadSettings.builder()
                .setLabel(file)
                .setSchema(new FailsafeSchema())
                .setCodePointLimit(Limits.BYTES)
                .setParseComments(comments)
                .build();
    }

    private Optional<Node> read(String text) {
        try {
            int documents = 0;
            for (Event e : new Parse(settings(file, false)).parseString(text)) {
                if (e.getEventId() == Event.ID.DocumentStart && ++documents > 1) {
                    problems.error(
                            ProblemKind.SYNTAX,
                            where(e, ""),
                            "A second document begins here.",
                            "Keep one document to a file.");
                    return Optional.empty();
                }
                if (!take(e)) {
                    return Optional.empty();
                }
            }
            return Optional.ofNullable(root);
        } catch (MarkedYamlEngineException e) {
            Where at = e.getProblemMark().map(m -> where(m, "")).orElse(new Where(file, 0, 0, ""));
            problems.error(
                    ProblemKind.SYNTAX,
                    at,
                    "This is not YAML: " + plain(e.getProblem()) + ".",
                    "Look at this line and the one above it: an indent, a quote, a bracket or a colon.");
        } catch (ReaderException e) {
            problems.error(
                    ProblemKind.SYNTAX,
                    whereOf(text, e.getPosition()),
                    String.format(
                            java.util.Locale.ROOT, "A character that cannot be printed: U+%04X.", e.getCodePoint()),
                    "Take it out.");
        } catch (YamlEngineException e) {
            problems.error(
                    ProblemKind.SYNTAX,
                    new Where(file, 0, 0, ""),
                    "This is not YAML: " + plain(String.valueOf(e.getMessage())) + ".",
                    "");
        }
        return Optional.empty();
    }

    /** Takes one event; false when reading must stop. */
    private boolean take(Event e) {
        switch (e.getEventId()) {
            case Alias -> {
                String name = e instanceof AliasEvent a ? a.getAlias().getValue() : "";
                return refuse(
                        e,
                        ProblemKind.TOO_LARGE,
                        "The alias *" + Said.quoted(name) + ": aliases are not read.",
                        "Write it out again.");
            }
            case Scalar, SequenceStart, MappingStart -> {
                return begin((NodeEvent) e);
            }
            case SequenceEnd, MappingEnd -> {
                Open done = open.pop();
                add(done.map ? new Node.Entries(done.entries, done.at) : new Node.Items(done.items, done.at));
                return true;
            }
            default -> {
                return true;
            }
        }
    }

    private boolean begin(NodeEvent e) {
        if (e.getAnchor().isPresent()) {
            return refuse(
                    e,
                    ProblemKind.TOO_LARGE,
                    "An anchor, &" + Said.quoted(e.getAnchor().get().getValue())
                            + ": anchors and aliases are not read.",
                    "Write it out again where it is needed.");
        }
        Optional<String> tag = e instanceof ScalarEvent s
                ? s.getTag()
                : e instanceof CollectionStartEvent c ? c.getTag() : Optional.empty();
        if (tag.isPresent()) {
            return refuse(
                    e,
                    ProblemKind.SYNTAX,
                    "The tag " + Said.quoted(tag.get()) + ": tags are not read.",
                    "Take it out.");
        }
        if (++nodes > mostNodes) {
            return refuse(
                    e,
                    ProblemKind.TOO_LARGE,
                    "More than " + Limits.NODES + " values and keys.",
                    "A house file has at most that many; write one house to a file.");
        }
        Where at = where(e, path());
        if (e instanceof ScalarEvent s) {
            if (s.getValue().length() > Limits.NOTE) {
                return refuse(
                        e,
                        ProblemKind.TOO_LARGE,
                        "A text of " + s.getValue().length() + " characters.",
                        "A note has at most " + Limits.NOTE + " characters, any other text " + Limits.TEXT + ".");
            }
            add(new Node.Scalar(s.getValue(), s.isPlain(), at));
            return true;
        }
        Open parent = open.peek();
        if (parent != null && parent.map && parent.key == null) {
            return refuse(
                    e,
                    ProblemKind.SYNTAX,
                    "A list or map as a key.",
                    "A key is a word. Put quotes around it if need be.");
        }
        if (open.size() >= Limits.DEPTH) {
            return refuse(
                    e,
                    ProblemKind.TOO_LARGE,
                    "Lists and maps nested deeper than " + Limits.DEPTH + ".",
                    "No house file needs more than ten.");
        }
        open.push(new Open(e.getEventId() == Event.ID.MappingStart, at));
        return true;
    }

    private void add(Node node) {
        Open in = open.peek();
        if (in == null) {
            root = node;
        } else if (!in.map) {
            in.items.add(node);
        } else if (in.key == null) {
            Node.Scalar key = (Node.Scalar) node;
            in.key = key;
            Where before = in.keys.putIfAbsent(key.text(), key.at());
            in.twice = before != null;
            if (before != null) {
                problems.error(
                        ProblemKind.DUPLICATE,
                        key.at(),
                        "The key " + Said.quoted(key.text()) + " stands here a second time.",
                        "It stands first in line " + before.line() + ". Keep one of them.");
            }
        } else {
            if (!in.twice) {
                in.entries.add(new Node.Entry(in.key, node));
            }
            in.key = null;
        }
    }

    private boolean refuse(Event e, ProblemKind kind, String message, String cure) {
        problems.error(kind, where(e, path()), message, cure);
        return false;
    }

    /** The way of keys to what comes next. */
    private String path() {
        Open in = open.peek();
        if (in == null) {
            return "";
        }
        String way = in.at.path();
        if (way.length() > LONGEST_PATH) {
            return way;
        }
        if (!in.map) {
            return way + "[" + in.items.size() + "]";
        }
        String key = in.key == null ? "" : in.key.text();
        return key.isEmpty() || key.length() > Limits.NAME ? way : way.isEmpty() ? key : way + "." + key;
    }

    private Where where(Event e, String path) {
        return e.getStartMark().map(m -> where(m, path)).orElse(new Where(file, 0, 0, path));
    }

    private Where where(Mark m, String path) {
        return new Where(file, m.getLine() + 1, m.getColumn() + 1, path);
    }

    private Where whereOf(String text, int position) {
        int end = Math.min(Math.max(position, 0), text.length());
        int line =
                1 + (int) text.substring(0, end).chars().filter(c -> c == '\n').count();
        return new Where(file, line, end - text.lastIndexOf('\n', end - 1), "");
    }

    private static String plain(@Nullable String said) {
        String s = said == null ? "it cannot be read" : Said.quoted(said);
        return s.startsWith("\"") ? s.substring(1, s.length() - 1) : s;
    }
}
