package org.splicebook.web.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What came back from a form: what was sent, kept so that nobody types it twice, and what is wrong with it, by the field that caused it.
 *
 * @param action where it was sent to; empty where nothing is wrong
 * @param sent what was sent, by field
 * @param said what is wrong
 */
public record Wrong(String action, Map<String, List<String>> sent, List<Said> said) {
    /** Nothing is wrong. */
    public static final Wrong NONE = new Wrong("", Map.of(), List.of());

    /** By these, forms of one page that go to one address are told apart. */
    private static final Set<String> TOLD_APART = Set.of("what", "step", "number", "in");

    /** What is not shown again: it cannot be, or must not. */
    private static final Set<Input.Kind> GONE =
            Set.of(Input.Kind.HIDDEN, Input.Kind.PASSWORD, Input.Kind.FILE, Input.Kind.LINES, Input.Kind.PHOTO);

    /**
     * One thing that is wrong.
     *
     * @param fields the fields that may have caused it, the likeliest first
     * @param isOfAll whether it belongs to no field at all, where it is none of these
     * @param words what was found and what would be right
     */
    public record Said(List<String> fields, boolean isOfAll, String words) {
        public Said {
            fields = List.copyOf(fields);
        }
    }

    /** A line at the top of the page: where it leads, empty where nowhere, and what it says. */
    public record Line(String to, String words) {}

    public Wrong {
        sent = Map.copyOf(sent);
        said = List.copyOf(said);
    }

    /** {@return whether nothing is wrong} */
    public boolean isEmpty() {
        return said.isEmpty();
    }

    /** {@return the forms of the page, the one that was sent filled in as it was, with what is wrong at its fields} */
    public List<Entry> placed(List<Entry> entries) {
        int which = which(entries);
        if (which < 0) {
            return entries;
        }
        Entry e = entries.get(which);
        List<Input> inputs = new ArrayList<>();
        for (int n = 0; n < e.inputs().size(); n++) {
            Input i = e.inputs().get(n);
            boolean isAgain = e.isAgain(n);
            List<String> wrong = said.stream()
                    .filter(s -> !isAgain && i.name().equals(field(s, e)))
                    .map(Said::words)
                    .distinct()
                    .toList();
            inputs.add(again(i).wrong(String.join(" ", wrong)));
        }
        List<Entry> all = new ArrayList<>(entries);
        all.set(which, e.with(inputs));
        return all;
    }

    /** {@return what the top of the page says: each thing that is wrong, leading to its field where it has one} */
    public List<Line> lines(List<Entry> entries) {
        int which = which(entries);
        return said.stream()
                .map(s -> {
                    Entry e = which < 0 ? null : entries.get(which);
                    String field = e == null ? "" : field(s, e);
                    String label = e == null
                            ? ""
                            : e.inputs().stream()
                                    .filter(i -> i.name().equals(field))
                                    .map(i -> i.label() + ": ")
                                    .findFirst()
                                    .orElse("");
                    return new Line(field.isEmpty() ? "" : "#" + Entry.id(which, field), label + s.words());
                })
                .distinct()
                .toList();
    }

    /** {@return which of the forms was sent; -1 for none of them} */
    private int which(List<Entry> entries) {
        for (int n = 0; n < entries.size() && !isEmpty(); n++) {
            Entry e = entries.get(n);
            boolean isIt = path(e.action()).equals(path(action))
                    && e.inputs().stream()
                            .filter(i -> i.kind() == Input.Kind.HIDDEN && TOLD_APART.contains(i.name()))
                            .allMatch(i -> i.value().equals(first(i.name())));
            if (isIt) {
                return n;
            }
        }
        return -1;
    }

    private static String path(String action) {
        int query = action.indexOf('?');
        return query < 0 ? action : action.substring(0, query);
    }

    private String first(String name) {
        List<String> values = sent.getOrDefault(name, List.of());
        return values.isEmpty() ? "" : values.get(0).strip();
    }

    private Input again(Input i) {
        if (GONE.contains(i.kind())) {
            return i;
        }
        if (i.isSome()) {
            return i.filled(String.join(",", sent.getOrDefault(i.name(), List.of())));
        }
        return sent.containsKey(i.name()) ? i.filled(first(i.name())) : i;
    }

    /** {@return the field that a thing is wrong with; where none was named, the one whose content is named in the words; empty for none} */
    private String field(Said s, Entry e) {
        List<Input> seen =
                e.inputs().stream().filter(i -> i.kind() != Input.Kind.HIDDEN).toList();
        for (String f : s.fields()) {
            // A reader of several of a kind names one of them.
            for (String name : List.of(f, f + "s")) {
                if (seen.stream().anyMatch(i -> i.name().equals(name))) {
                    return name;
                }
            }
        }
        return s.isOfAll()
                ? ""
                : seen.stream()
                        .filter(i ->
                                sent.getOrDefault(i.name(), List.of()).stream().anyMatch(v -> names(s.words(), v)))
                        .max(Comparator.comparingInt(i -> first(i.name()).length()))
                        .map(Input::name)
                        .orElse("");
    }

    /** Whole words alone: a box {@code a} is not named by every sentence with an article. */
    private static boolean names(String words, String value) {
        String v = Objects.requireNonNullElse(value, "").strip();
        return v.length() > 1
                && Pattern.compile("(?<![\\w.+-])" + Pattern.quote(v) + "(?![\\w+-]|\\.\\w)")
                        .matcher(words)
                        .find();
    }
}
