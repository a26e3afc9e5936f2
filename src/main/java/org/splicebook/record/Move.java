package org.splicebook.record;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One step of a change to a house's wiring. Wire ends and terminals are named as in the joints of their box, since an earlier move may
 * bring them in.
 */
public sealed interface Move {

    /**
     * A wire end or terminal leaves its joint and joins what another one is in. In a panel it lands by itself.
     *
     * @param in the box or panel
     * @param end what is moved: {@code K1.black}, {@code lamp.hot}
     * @param to what it is to touch
     */
    record Shift(String in, String end, String to) implements Move {}

    /** A wire end or terminal leaves its joint and is capped, or left bare. */
    record Cap(String in, String end) implements Move {}

    /** Wire ends and terminals leave their joints and make a splice of their own. */
    record Splice(String in, List<String> ends, Joint.@Nullable By by) implements Move {
        public Splice {
            ends = List.copyOf(ends);
        }
    }

    /** What a terminal's screws hold becomes a splice of its own, with a pigtail to the terminal. */
    record Pigtail(String in, String terminal) implements Move {}

    /** A tab is broken out, or a device is set to one whose tab is in. */
    record SetTab(String device, String tab, boolean isIn) implements Move {}

    /**
     * A device is replaced by one of another kind.
     *
     * @param device its name, which stays
     * @param kind the new kind
     * @param terminals old terminal to new one, where the names differ
     */
    record ChangeKind(String device, DeviceKind kind, Map<String, String> terminals) implements Move {
        public ChangeKind {
            terminals = Ordered.map(terminals);
        }
    }

    /** What is on line goes to load, and the reverse. */
    record SwapLineAndLoad(String device) implements Move {}

    /**
     * Breakers of a panel are replaced by one, or one is added or retired.
     *
     * @param panel the panel
     * @param was keys of the breakers that go; none where one is added
     * @param is what comes; null where they are only retired. As many poles as went: what landed on them follows in order
     */
    record ChangeBreaker(
            String panel, List<String> was, @Nullable Breaker is) implements Move {
        public ChangeBreaker {
            was = List.copyOf(was);
        }
    }

    /**
     * A panel is taken down and another hung in its place, under its name.
     *
     * @param is the new panel, without landings
     * @param landings the new terminal of what lands on an old one ({@code 13: 9}); what is not named keeps its terminal, which the new
     *     panel must have
     */
    record ReplacePanel(Panel is, Map<String, String> landings) implements Move {
        public ReplacePanel {
            landings = Ordered.map(landings);
        }
    }

    /**
     * A further panel is hung, with the cable that feeds it; the wires of that are joined to nothing yet.
     *
     * @param is the panel, without landings; its supply is the feeder
     * @param feeder the cable, one end in the new panel
     */
    record AddPanel(Panel is, Cable feeder) implements Move {}

    /** A source is replaced by another under its name: a larger service. */
    record ChangeSource(Source is) implements Move {}

    /** A source comes in, its terminals in a box or panel that is there, joined to nothing yet. */
    record AddSource(Source is) implements Move {}

    /** A handle tie is put on spaces, or taken off. */
    record Tie(String panel, List<String> spaces, boolean isOn) implements Move {
        public Tie {
            spaces = List.copyOf(spaces);
        }
    }

    /** A cable comes in; its ends lie where it says, joined to nothing yet. */
    record AddCable(Cable cable) implements Move {}

    /** A cable is taken out, its wire ends out of their joints. */
    record RetireCable(String cable) implements Move {}

    /** A box comes in, without devices and joints. */
    record AddBox(Box box) implements Move {}

    /** A box is taken out; nothing may be left in it. */
    record RetireBox(String box) implements Move {}

    /** A device comes in. */
    record AddDevice(String box, Device device) implements Move {}

    /** A device is taken off its wires. What only its screws held parts. */
    record RetireDevice(String device) implements Move {}

    /** Words are put on a device's face, beside those that are on it. */
    record Label(String device, String words) implements Move {}

    /** A wire is marked with another colour, at both ends. */
    record Remark(String cable, String wire, String colour) implements Move {}
}
