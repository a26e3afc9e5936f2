package org.splicebook.survey;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** States that people can bring a whole house into to look. */
public enum Setting {
    /** As it is while they look. */
    AS_USUAL("", ""),
    NOTHING_ON("nothing on", "with nothing switched on or plugged in"),
    EVERYTHING_ON("everything on", "with something on everywhere"),
    SWITCHES_MOVED("every switch moved", "with every switch moved to its other position");

    /** All of them, as usual first: what is shown in each stands in this order. */
    public static final List<Setting> ALL = List.of(values());

    private final String typed;
    private final String said;

    Setting(String typed, String said) {
        this.typed = typed;
        this.said = said;
    }

    /** {@return how it is typed after {@code when}; empty as usual} */
    public String typed() {
        return typed;
    }

    /** {@return it in words; empty as usual} */
    public String said() {
        return said;
    }

    /** {@return the setting that is typed so} */
    static Optional<Setting> of(String words) {
        String w = words.strip().toLowerCase(Locale.ROOT);
        return ALL.stream().filter(s -> s != AS_USUAL && s.typed.equals(w)).findFirst();
    }
}
