package org.splicebook.answer;

import java.util.List;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.Way;

/** Says a way in words, hop by hop. */
public final class HopWords {
    private HopWords() {}

    /** {@return one line for each hop, for example {@code joint bench:K1.black (seen)}} */
    public static List<String> say(Way way) {
        return way.hops().stream()
                .map(h -> say(h.thing(), h.box()) + " (" + h.basis().word() + ")")
                .toList();
    }

    /**
     * {@return a thing in words}
     *
     * @param box the box or panel it is in; empty where it is in none
     */
    public static String say(Thing thing, String box) {
        String name = thing.name();
        String said = switch (thing.kind()) {
            case SOURCE -> "source " + name;
            case MAIN -> "main of " + name;
            case BREAKER -> "breaker " + name;
            case POLE -> "breaker pole " + name;
            case BUS -> "bus " + name;
            case BAR -> "bar " + name;
            case LUG -> "lug " + name;
            case CABLE -> "cable " + name;
            case WIRE -> "wire " + name;
            case WIRE_END -> "wire end " + name;
            case JOINT -> "joint " + name;
            case DEVICE -> "device " + name;
            case TERMINAL -> "terminal " + name;
            case METAL -> "metal of " + name;
        };
        boolean told = box.isEmpty() || name.equals(box) || name.startsWith(box + ".") || name.startsWith(box + ":");
        return told ? said : said + " in " + box;
    }
}
