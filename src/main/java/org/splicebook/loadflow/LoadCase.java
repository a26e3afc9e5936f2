package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.record.Ordered;

/**
 * What is on, in which position everything stands, and what is wrong: one state of a house to be solved. Immutable; each method gives a
 * changed copy.
 *
 * @param base what is on where nothing else is said
 * @param physics under which conditions
 * @param levers positions of levers; the first position where nothing is said
 * @param closed what is closed and what open: breakers ({@code main.2+4}), one pole alone ({@code main.4}), mains ({@code main.main}),
 *     protective devices ({@code bath-gf}); as recorded where nothing is said
 * @param loads loads by load point, by pair, by device or by place; what is named more closely comes first
 * @param ohms measured ohms by branch
 * @param sources what stands behind a source
 * @param faults what is wrong
 */
public record LoadCase(
        Base base,
        Physics physics,
        Map<String, String> levers,
        Map<String, Boolean> closed,
        Map<String, Load> loads,
        Map<String, Double> ohms,
        Map<String, SourceModel> sources,
        List<Fault> faults) {
    /** The kept cases. */
    public enum Base {
        /** What is hard-wired, and what is said to be plugged in. */
        TYPICAL,
        /** That, and something in every receptacle. */
        ALL_ON,
        NOTHING_ON,
        /** Heaters alone. */
        HEATERS
    }

    public LoadCase {
        levers = Ordered.map(levers);
        closed = Ordered.map(closed);
        loads = Ordered.map(loads);
        ohms = Ordered.map(ohms);
        sources = Ordered.map(sources);
        faults = List.copyOf(faults);
    }

    /** {@return a kept case, everything as recorded} */
    public static LoadCase of(Base base) {
        return new LoadCase(base, Physics.USUAL, Map.of(), Map.of(), Map.of(), Map.of(), Map.of(), List.of());
    }

    /** {@return nothing on} */
    public static LoadCase nothingOn() {
        return of(Base.NOTHING_ON);
    }

    /** {@return what is typically on} */
    public static LoadCase typical() {
        return of(Base.TYPICAL);
    }

    /** {@return this with another kept case below what else is said} */
    public LoadCase withBase(Base other) {
        return new LoadCase(other, physics, levers, closed, loads, ohms, sources, faults);
    }

    /** {@return this under other conditions} */
    public LoadCase under(Physics other) {
        return new LoadCase(base, other, levers, closed, loads, ohms, sources, faults);
    }

    /** {@return this without resistance, but for what is given in ohms} */
    public LoadCase ideal() {
        return under(Physics.IDEAL);
    }

    /** {@return this at a temperature of the wires} */
    public LoadCase at(double celsius) {
        return under(new Physics(physics.hertz(), celsius, physics.ideal(), physics.reactance()));
    }

    /** {@return this with a lever in a position} */
    public LoadCase lever(String lever, String position) {
        return new LoadCase(base, physics, put(levers, lever, position), closed, loads, ohms, sources, faults);
    }

    /** {@return this with a breaker, pole, main or protective device closed} */
    public LoadCase close(String thing) {
        return new LoadCase(base, physics, levers, put(closed, thing, true), loads, ohms, sources, faults);
    }

    /** {@return this with a breaker, pole, main or protective device open} */
    public LoadCase open(String thing) {
        return new LoadCase(base, physics, levers, put(closed, thing, false), loads, ohms, sources, faults);
    }

    /** {@return this with a load at a load point, a pair, a device or everywhere in a place} */
    public LoadCase load(String at, Load load) {
        return new LoadCase(base, physics, levers, closed, put(loads, at, load), ohms, sources, faults);
    }

    /** {@return this with measured ohms of a branch} */
    public LoadCase ohms(String branch, double measured) {
        return new LoadCase(base, physics, levers, closed, loads, put(ohms, branch, measured), sources, faults);
    }

    /** {@return this with a grounding electrode of so many ohms at a panel's ground bar} */
    public LoadCase electrode(String panel, double toEarth) {
        return ohms(panel + ".electrode", toEarth).close(panel + ".electrode");
    }

    /** {@return this with something else behind a source's terminals} */
    public LoadCase source(String source, SourceModel model) {
        return new LoadCase(base, physics, levers, closed, loads, ohms, put(sources, source, model), faults);
    }

    /** {@return this with one fault more} */
    public LoadCase fault(Fault fault) {
        List<Fault> all = new ArrayList<>(faults);
        all.add(fault);
        return new LoadCase(base, physics, levers, closed, loads, ohms, sources, all);
    }

    private static <V> Map<String, V> put(Map<String, V> map, String key, V value) {
        Map<String, V> changed = new LinkedHashMap<>(map);
        changed.put(key, value);
        return changed;
    }
}
