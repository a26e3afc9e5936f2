package org.splicebook.panelplan.upgrade;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Ordered;
import org.splicebook.record.Protection;

/**
 * One breaker of the new panel with what lands on it.
 *
 * @param name what it is called in the plan: today's breakers (<code>9, 11</code>), or the load that is new
 * @param was keys of today's breakers that it takes the place of; none where it is new
 * @param poles its poles
 * @param amperes its rating; null where it is not known and nothing tells it
 * @param protects what it protects from beside overcurrent
 * @param neutrals wires that land on its neutral terminal
 * @param label its line of the directory
 * @param isNew whether its circuit is new
 * @param why what was decided about it, and why
 */
public record Circuit(
        String name,
        List<String> was,
        List<Pole> poles,
        @Nullable Double amperes,
        Set<Protection> protects,
        List<String> neutrals,
        String label,
        boolean isNew,
        List<String> why) {
    /**
     * One pole.
     *
     * @param terminal today's terminal; empty where it is new
     * @param column the space that says where its wires reach; 0 where today's panel tells nothing of it
     * @param wires the wires on it
     * @param va demand on it in volt-amperes
     */
    public record Pole(String terminal, int column, List<String> wires, double va) {
        public Pole {
            wires = List.copyOf(wires);
        }
    }

    public Circuit {
        was = List.copyOf(was);
        poles = List.copyOf(poles);
        protects = Ordered.set(protects);
        neutrals = List.copyOf(neutrals);
        why = List.copyOf(why);
    }

    /** {@return the same circuit, protected otherwise, and why} */
    Circuit protectedBy(Set<Protection> other, List<String> itsNeutrals, String reason) {
        List<String> reasons = new java.util.ArrayList<>(why);
        reasons.add(reason);
        return new Circuit(name, was, poles, amperes, other, itsNeutrals, label, isNew, reasons);
    }

    /** {@return the breaker in words: <code>20 A, two poles, arc-fault</code>} */
    public String breaker() {
        String rating = amperes == null ? "rating to be found" : Words.number(amperes) + " A";
        String wide = poles.size() == 1 ? "" : poles.size() == 2 ? ", two poles" : ", three poles";
        return rating + wide + protects.stream().map(p -> ", " + p.word()).collect(Collectors.joining());
    }

    /** {@return demand on all its poles in volt-amperes} */
    public double va() {
        return poles.stream().mapToDouble(Pole::va).sum();
    }

    /** {@return whether any of its breakers today has that key} */
    boolean isOf(String key) {
        return was.contains(key) || Objects.equals(name, key);
    }
}
