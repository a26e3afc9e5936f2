package org.splicebook.housefile;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Where;
import org.splicebook.record.Provenance;
import org.splicebook.record.Quantity;

/** A map in the making, for writing: what is null or says nothing is left out. */
final class Tree {
    private final List<Node.Entry> entries = new ArrayList<>();

    Tree put(String key, @Nullable Node value) {
        if (value != null) {
            entries.add(new Node.Entry(scalar(key), value));
        }
        return this;
    }

    Tree put(String key, @Nullable String value) {
        return put(key, value == null ? null : scalar(value));
    }

    Tree put(String key, @Nullable Quantity value) {
        return put(key, value == null ? null : value.said());
    }

    /** Puts a word unless it is what is understood anyway. */
    Tree putUnless(boolean understood, String key, String value) {
        return understood ? this : put(key, value);
    }

    /** Puts a list unless it is empty. */
    Tree putList(String key, Collection<String> values) {
        return values.isEmpty() ? this : put(key, list(values));
    }

    /** Puts a list of what things are written as, unless it is empty. */
    <T> Tree putList(String key, Collection<T> values, Function<T, ? extends Node> written) {
        return values.isEmpty() ? this : put(key, list(values, written));
    }

    /** Puts a map of what things are written as, unless it is empty. */
    <T> Tree putMap(String key, Map<String, T> values, Function<T, ? extends Node> written) {
        if (values.isEmpty()) {
            return this;
        }
        Tree map = new Tree();
        values.forEach((name, v) -> map.put(name, written.apply(v)));
        return put(key, map.node());
    }

    /** Puts all of another map after what is here. */
    Tree putAll(Tree other) {
        entries.addAll(other.entries);
        return this;
    }

    /** Puts basis, age and note. */
    Tree about(Provenance about) {
        return put("basis", about.basis() == null ? null : about.basis().word())
                .put("since", about.since())
                .put("before", about.before())
                .put("permit", about.permit())
                .put("note", about.note())
                .putList(PhotoReader.KEY, about.photos(), PhotoReader::photo)
                .putList(PhotoReader.DOCUMENTS, about.documents(), PhotoReader::photo);
    }

    Node.Entries node() {
        return new Node.Entries(List.copyOf(entries), Where.NOWHERE);
    }

    static Node.Scalar scalar(String text) {
        return new Node.Scalar(text, false, Where.NOWHERE);
    }

    static Node.Items list(Collection<String> values) {
        return list(values, Tree::scalar);
    }

    static <T> Node.Items list(Collection<T> values, Function<T, ? extends Node> written) {
        List<Node> items = new ArrayList<>();
        values.forEach(v -> items.add(written.apply(v)));
        return new Node.Items(items, Where.NOWHERE);
    }

    /** {@return the list, or its only member by itself} */
    static Node oneOrMore(List<String> values) {
        return values.size() == 1 ? scalar(values.get(0)) : list(values);
    }

    static String yesNo(boolean b) {
        return b ? "yes" : "no";
    }
}
