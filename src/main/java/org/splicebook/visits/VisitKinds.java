package org.splicebook.visits;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.splicebook.housefile.PlainYaml;

/** States, steps, what is known of residents, and what to send, from {@code visits.yaml}. */
public final class VisitKinds {
    private static final Map<?, ?> DATA = (Map<?, ?>) PlainYaml.strings(text());
    private static final Map<String, State> STATES = states();
    private static final List<StepKind> STEPS = steps();
    private static final List<Field> RESIDENT = fields("resident", DATA);
    private static final List<Send> SEND = send();

    private VisitKinds() {}

    /** A state: its word, what people call it, and what comes next. */
    public record State(String id, String title, String next) {}

    /** Who is needed for a suspect, and with what. */
    public record Send(String word, String who, String bring) {}

    /** {@return the state of a word} */
    public static State state(String id) {
        return Objects.requireNonNull(STATES.get(id), id);
    }

    /** {@return all steps, in their usual order} */
    public static List<StepKind> steps(String from) {
        return STEPS.stream().filter(s -> s.from().contains(from)).toList();
    }

    /** {@return the step of that word, if it is one} */
    public static Optional<StepKind> step(String id) {
        return STEPS.stream().filter(s -> s.id().equals(id)).findFirst();
    }

    /** {@return all words of steps} */
    public static List<String> words() {
        return STEPS.stream().map(StepKind::id).toList();
    }

    /** {@return what may be known of a resident} */
    public static List<Field> resident() {
        return RESIDENT;
    }

    /** {@return who is mostly needed for a suspect in such words, and with what: a suggestion} */
    public static Send send(String suspect) {
        String said = suspect.toLowerCase(Locale.ROOT);
        return SEND.stream().filter(s -> said.contains(s.word())).findFirst().orElseThrow();
    }

    private static Map<String, State> states() {
        Map<String, State> all = new LinkedHashMap<>();
        map("states")
                .forEach((id, v) -> all.put(
                        String.valueOf(id),
                        new State(
                                String.valueOf(id),
                                Field.text((Map<?, ?>) v, "title"),
                                Field.text((Map<?, ?>) v, "next"))));
        return all;
    }

    private static List<StepKind> steps() {
        List<StepKind> all = new ArrayList<>();
        map("steps").forEach((id, v) -> {
            Map<?, ?> step = (Map<?, ?>) v;
            all.add(new StepKind(
                    String.valueOf(id),
                    Field.text(step, "title"),
                    Arrays.asList(Field.text(step, "from").split(", ")),
                    Field.text(step, "to"),
                    fields("fields", step)));
        });
        return all;
    }

    private static List<Field> fields(String key, Map<?, ?> in) {
        List<Field> all = new ArrayList<>();
        ((Map<?, ?>) Objects.requireNonNull(in.get(key)))
                .forEach((name, said) -> all.add(Field.of(name, (Map<?, ?>) said)));
        return all;
    }

    private static List<Send> send() {
        List<Send> all = new ArrayList<>();
        for (Object o : (List<?>) Objects.requireNonNull(DATA.get("send"))) {
            Map<?, ?> m = (Map<?, ?>) o;
            all.add(new Send(Field.text(m, "word"), Field.text(m, "who"), Field.text(m, "bring")));
        }
        return all;
    }

    private static Map<?, ?> map(String key) {
        return (Map<?, ?>) Objects.requireNonNull(DATA.get(key));
    }

    private static String text() {
        try (InputStream in = VisitKinds.class.getResourceAsStream("visits.yaml")) {
            return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
