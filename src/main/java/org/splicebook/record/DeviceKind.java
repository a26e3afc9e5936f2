package org.splicebook.record;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a device is: its terminals and what is connected inside it. Kinds are data; {@code kind: other} brings its own.
 *
 * @param name the word of the house file, for example {@code duplex-receptacle}
 * @param title what people call it
 * @param family the broad class
 * @param terminals every terminal
 * @param aliases other names of terminals: plain {@code hot} for {@code top.hot} while the tab is in
 * @param tabs the breakable links
 * @param levers its levers (most have one, called {@code lever}); positions are named by the links
 * @param links what conducts inside
 * @param loadPoints where a load takes current; a plain device has one with an empty name
 * @param guard its protective function, if it has any
 * @param boxFill box-fill allowance, in conductors of the largest size landed (314.16(B)(4))
 * @param screws wires that may go on a terminal, by terminal; absent: one
 * @param load the load model, for typical cases
 */
public record DeviceKind(
        String name,
        String title,
        Family family,
        List<Terminal> terminals,
        Map<String, Alias> aliases,
        List<Tab> tabs,
        List<Lever> levers,
        List<Link> links,
        List<LoadPoint> loadPoints,
        @Nullable Guard guard,
        double boxFill,
        Map<String, Integer> screws,
        @Nullable LoadModel load) {
    /** The broad class of a device. */
    public enum Family {
        RECEPTACLE,
        PROTECTIVE,
        SWITCH,
        LUMINAIRE,
        APPLIANCE,
        ALARM,
        TRANSFORMER,
        DISCONNECT,
        OTHER
    }

    /** What a terminal is for, as the maker meant it. What it does follows from the wiring. */
    public enum Role {
        HOT,
        NEUTRAL,
        GROUND,
        SWITCH,
        TRAVELER,
        METAL,
        SECONDARY,
        ANY
    }

    /** A terminal and its meant role. */
    public record Terminal(String name, Role role) {}

    /** Another name of a terminal, allowed only while a tab is in (null: always). */
    public record Alias(String terminal, @Nullable String whileTab) {}

    /** A breakable link between two terminals; {@code madeIn}: in as it left the works. */
    public record Tab(String name, String a, String b, boolean madeIn) {}

    /** A lever and the names of its positions, in order. A lever by which a person or the device's own logic moves it. */
    public record Lever(String name, List<String> positions) {
        public Lever {
            positions = List.copyOf(positions);
        }
    }

    /**
     * What conducts inside a device between two terminals.
     *
     * @param a one terminal
     * @param b the other
     * @param when when it conducts
     * @param lever with {@link When#LEVER}: which lever
     * @param positions with {@link When#LEVER}: in which of its positions
     */
    public record Link(
            String a, String b, When when, @Nullable String lever, Set<String> positions) {
        public Link {
            positions = Ordered.set(positions);
        }
    }

    /** When a link conducts. */
    public enum When {
        ALWAYS,
        /** In some positions of a lever. */
        LEVER,
        /** While the protective contacts are closed; the sensor watches it. {@code a} is the line side. */
        GUARDED,
        /** Never as a wire, always as a load: electronics or a pilot lamp across a contact. */
        AS_LOAD
    }

    /**
     * One set of terminals where a load takes current.
     *
     * @param name {@code top}, {@code bottom}; empty where the device has only one
     * @param pairs the terminal pairs that a load may sit across
     * @param ground its ground terminal, if it has one
     */
    public record LoadPoint(
            String name, List<Pair> pairs, @Nullable String ground) {
        public LoadPoint {
            pairs = List.copyOf(pairs);
        }
    }

    /** Two terminals with a nominal voltage between them (0: not said). */
    public record Pair(String a, String b, double volts) {}

    /**
     * A protective function of a device.
     *
     * @param functions what it does
     * @param opens which guarded links open when it trips, by their line terminal
     * @param faceOnLoadSide whether its own face is behind the sensor
     * @param reversed what happens with line and load swapped
     * @param sensesNeutral whether the neutral passes the sensor
     */
    public record Guard(
            Set<Protection> functions,
            Set<String> opens,
            boolean faceOnLoadSide,
            Reversed reversed,
            boolean sensesNeutral) {
        public Guard {
            functions = Ordered.set(functions);
            opens = Ordered.set(opens);
        }
    }

    /** What a protective device does when line and load are swapped. */
    public enum Reversed {
        /** Its own face stays live and unprotected. */
        FACE_UNPROTECTED,
        /** It refuses to reset: dead. */
        LOCKS_OUT,
        UNKNOWN
    }

    /**
     * A typical load.
     *
     * @param model how it behaves
     * @param watts typical power; 0 when it takes none by itself
     * @param powerFactor its power factor
     */
    public record LoadModel(Model model, double watts, double powerFactor) {
        /** How a load's current follows the voltage. */
        public enum Model {
            IMPEDANCE,
            POWER,
            CURRENT
        }
    }

    public DeviceKind {
        terminals = List.copyOf(terminals);
        aliases = Ordered.map(aliases);
        tabs = List.copyOf(tabs);
        levers = List.copyOf(levers);
        links = List.copyOf(links);
        loadPoints = List.copyOf(loadPoints);
        screws = Ordered.map(screws);
    }

    /** {@return the terminal of that name, aliases not followed} */
    public Optional<Terminal> findTerminal(String terminal) {
        for (Terminal t : terminals) {
            if (t.name().equals(terminal)) {
                return Optional.of(t);
            }
        }
        return Optional.empty();
    }
}
