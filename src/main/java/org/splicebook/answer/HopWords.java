package org.splicebook.answer;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.splicebook.record.Basis;
import org.splicebook.wiring.ThingKind;

/** Says a way in words, box by box. */
final class HopWords {
    private HopWords() {}

    /**
     * {@return one line for each box and each wire, for example {@code in bench: joint K1.black, terminal bench-1.top.hot (seen)}}
     *
     * <p>Ends of wires are not told: the wire and the joints at both ends of it say the same.
     */
    static List<String> say(List<Reason.Step> steps) {
        List<String> lines = new ArrayList<>();
        List<Reason.Step> here = new ArrayList<>();
        for (Reason.Step s : steps) {
            if (s.kind() == ThingKind.WIRE_END) {
                continue;
            }
            if (!here.isEmpty()
                    && (s.box().isEmpty() || !s.box().equals(here.get(0).box()))) {
                add(lines, here);
                here.clear();
            }
            here.add(s);
        }
        if (!here.isEmpty()) {
            add(lines, here);
        }
        return lines;
    }

    /** Two poles of one source are one line. */
    private static void add(List<String> lines, List<Reason.Step> here) {
        String line = line(here);
        if (lines.isEmpty() || !lines.get(lines.size() - 1).equals(line)) {
            lines.add(line);
        }
    }

    private static String line(List<Reason.Step> here) {
        String box = here.get(0).box();
        Basis weakest = here.stream().map(Reason.Step::basis).reduce(Basis.SEEN, Basis::weaker);
        String things = here.stream().map(s -> say(s, box)).distinct().collect(Collectors.joining(", "));
        return (box.isEmpty() ? "" : "in " + box + ": ") + things + " (" + weakest.word() + ")";
    }

    private static String say(Reason.Step step, String box) {
        String name = step.name();
        return switch (step.kind()) {
            case SOURCE -> "source " + name;
            case MAIN -> "main of " + name;
            case BREAKER -> "breaker " + name;
            case POLE -> "breaker pole " + name;
            case BUS -> "bus " + name;
            case BAR -> "bar " + name;
            case LUG -> "lug " + name;
            case CABLE -> "cable " + name;
            case WIRE, WIRE_END -> "wire " + name + colour(step);
            case JOINT -> "joint " + (name.startsWith(box + ":") ? name.substring(box.length() + 1) : name);
            case DEVICE -> "through device " + name;
            case TERMINAL -> "terminal " + name;
            case METAL -> "metal of " + name;
        };
    }

    /** A wire named by its colour needs it once. */
    private static String colour(Reason.Step wire) {
        String own = wire.name().substring(wire.name().indexOf('.') + 1);
        return wire.colour().isEmpty() || own.equals(wire.colour()) ? "" : ", " + wire.colour();
    }
}
