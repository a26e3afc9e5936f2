package org.splicebook.wiring.evidence;

import java.util.List;

/**
 * A smallest set of facts that cannot all hold: with any one of them left out the others can.
 *
 * @param facts the facts, in order
 */
public record Conflict(List<Fact> facts) {
    public Conflict {
        facts = facts.stream().sorted().toList();
    }

    /** {@return the sightings in it} */
    public List<String> sightings() {
        return facts.stream()
                .filter(f -> f instanceof Fact.Sighted)
                .map(f -> ((Fact.Sighted) f).sighting())
                .toList();
    }
}
