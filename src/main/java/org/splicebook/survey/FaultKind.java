package org.splicebook.survey;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.Properties;

/** What kind of fault is suspected. How often each is met stands in {@code fault-kinds.properties}. */
public enum FaultKind {
    OPEN("open"),
    LOOSE("loose"),
    TRIPPED("tripped or switched off"),
    SHORT("hot touching ground or neutral"),
    NEUTRAL_TO_GROUND("neutral touching ground"),
    WRONG_LEG("landed on the other leg"),
    REVERSED("hot and neutral reversed"),
    TAB_OUT("tab broken out"),
    TAB_IN("tab not broken out"),
    STUCK("contact stuck closed"),
    WRONG_SPLICE("wire on another splice"),
    CROSSED("neutrals exchanged"),
    NEUTRALS_JOINED("neutrals of two splices joined");

    private static final Properties WEIGHTS = new Properties();

    static {
        try (InputStream in = FaultKind.class.getResourceAsStream("fault-kinds.properties")) {
            WEIGHTS.load(Objects.requireNonNull(in));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private final String words;

    FaultKind(String words) {
        this.words = words;
    }

    /** {@return it in words} */
    public String words() {
        return words;
    }

    /** {@return how often it is met beside the others} */
    double weight() {
        return weight(name());
    }

    /** {@return what two faults at once weigh against one} */
    static double two() {
        return weight("two");
    }

    /** {@return what a fault that nobody would notice weighs where someone did notice something} */
    static double unnoticed() {
        return weight("unnoticed");
    }

    /** {@return how many times likelier a fault is where someone worked last} */
    static double touched() {
        return weight("touched");
    }

    private static double weight(String key) {
        return Double.parseDouble(Objects.requireNonNull(WEIGHTS.getProperty(key), key));
    }
}
