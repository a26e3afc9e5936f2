package org.splicebook.record;

/** A thing that can touch others in a joint. */
public sealed interface Ref {
    /**
     * An end of a wire.
     *
     * @param cable the cable's name
     * @param wire the wire's name in it
     * @param end 0 or 1: which of the cable's ends
     * @param endSaid whether the end has to be said ({@code K9.black@1}, counted from 1), both ends being in one box
     */
    record WireEnd(String cable, String wire, int end, boolean endSaid) implements Ref {
        @Override
        public String said() {
            return cable + "." + wire + (endSaid ? "@" + (end + 1) : "");
        }
    }

    /** A terminal of a device in the same box. The name is the kind's own, aliases resolved. */
    record DeviceTerminal(String device, String terminal) implements Ref {
        @Override
        public String said() {
            return device + "." + terminal;
        }
    }

    /** The metal of the box or panel that the joint is in. */
    record BoxMetal() implements Ref {
        @Override
        public String said() {
            return "box";
        }
    }

    /** A terminal of the panel that the joint is in: a space, {@code 8.neutral}, {@code n}, {@code g}, {@code line-1}. */
    record PanelTerminal(String terminal) implements Ref {
        @Override
        public String said() {
            return terminal;
        }
    }

    /** A terminal of a source that is in this box or panel. */
    record SourceTerminal(String source, String terminal) implements Ref {
        @Override
        public String said() {
            return source + "." + terminal;
        }
    }

    /** {@return how it is written in a house file} */
    String said();
}
