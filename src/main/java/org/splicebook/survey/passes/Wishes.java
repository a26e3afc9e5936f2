package org.splicebook.survey.passes;

import java.util.Set;

/**
 * What the people in the house ask of a survey, by name.
 *
 * @param stayOn breakers that must not be turned off
 * @param alone breakers that are turned off only by themselves, and briefly
 * @param free breakers that may be off with others, whatever their label says
 * @param backedUp load points that someone's health hangs on, and whose backup runs
 */
public record Wishes(Set<String> stayOn, Set<String> alone, Set<String> free, Set<String> backedUp) {
    /** None. */
    public static final Wishes NONE = new Wishes(Set.of(), Set.of(), Set.of(), Set.of());

    public Wishes {
        stayOn = Set.copyOf(stayOn);
        alone = Set.copyOf(alone);
        free = Set.copyOf(free);
        backedUp = Set.copyOf(backedUp);
    }
}
