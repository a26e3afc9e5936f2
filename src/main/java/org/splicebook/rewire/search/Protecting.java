package org.splicebook.rewire.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.splicebook.record.Box;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Panel;
import org.splicebook.record.Protection;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Pack;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/** How protective devices are put into a house, and what a house with them is worth, by the same measures as a search's changes. */
public final class Protecting {
    /** The rule of a slot for a ground that is not there. */
    public static final String UNGROUNDED = "ungrounded-replacement";

    private final State before;
    private final PartAtoms atoms;
    private final Validation validation;

    /**
     * What came out.
     *
     * @param protections what protects each load point of the house for certain, by the name that it had before; those that the change
     *     cannot reach may be left out
     * @param reasons why the change may not be made; none where it may
     * @param beside lesser findings that come with it
     * @param unlabelled devices without a ground that would have a slot for one, and whose face has to say so
     */
    public record Verdict(
            Map<String, Set<Protection>> protections,
            List<String> reasons,
            List<String> beside,
            List<String> unlabelled) {
        public Verdict {
            unlabelled = List.copyOf(unlabelled);
            protections = Map.copyOf(protections);
            reasons = List.copyOf(reasons);
            beside = List.copyOf(beside);
        }
    }

    private Protecting(State before, Pack pack, Map<String, DeviceKind> kinds) {
        this.before = before;
        this.atoms = new PartAtoms(before, kinds);
        // Nothing by name is wished for: only what gets worse is asked.
        this.validation = new Validation(before, pack, new Wish.Protect(Protection.GROUND_FAULT, List.of()));
    }

    /** {@return what may protect a house that is checked by a pack} */
    public static Protecting of(House house, Pack pack, Map<String, DeviceKind> kinds) {
        return new Protecting(State.of(house, pack), pack, kinds);
    }

    /** {@return the wiring as it is} */
    public Wiring wiring() {
        return before.wiring();
    }

    /** {@return what is found in the house as it is, accepted or not} */
    public List<Finding> findings() {
        return before.findings();
    }

    /** {@return a protective breaker in the place of some, the neutrals of their circuits on its terminal; nothing where they protect so} */
    public List<List<Move>> breaker(Panel p, List<Breaker> was, List<String> spaces, Set<Protection> what) {
        List<List<Move>> all = new ArrayList<>();
        atoms.protect(p, was, spaces, what, all);
        return all;
    }

    /** {@return a protective device in a plain receptacle's place, with what goes on left ahead of it or taken behind it} */
    public List<List<Move>> receptacle(Box box, Device plain, DeviceKind kind) {
        List<List<Move>> all = new ArrayList<>();
        atoms.protective(box, plain, kind, all);
        return all;
    }

    /** {@return the moves that take what goes on from a protective device's line side to its load side} */
    public List<Move> onward(Box box, Device device) {
        List<Move> all = new ArrayList<>();
        atoms.onward(box, device, "hot", all);
        atoms.onward(box, device, "neutral", all);
        return all;
    }

    /** {@return the words put on a device's face that has no ground: NEC 406.4(D)(2)} */
    public static Move label(String device) {
        return new Move.Label(device, FaceAtoms.NO_GROUND);
    }

    /** {@return the verdict by the part of the house that the change can reach} */
    public Verdict part(House after, List<Move> moves) {
        return said(validation.part(after, moves));
    }

    /** {@return the verdict by the whole house: nothing is put forward without} */
    public Verdict whole(House after, List<Move> moves) {
        return said(validation.whole(after, moves));
    }

    /** {@return what protects each load point of the house as it is for certain} */
    public Map<String, Set<Protection>> protections() {
        return protections(before);
    }

    private Map<String, Set<Protection>> protections(State after) {
        Map<String, Set<Protection>> all = new TreeMap<>();
        for (LoadPointWiring was : before.points().values()) {
            LoadPointWiring is = Service.now(after, was);
            if (is != null) {
                all.put(was.id(), Service.protections(is));
            }
        }
        return all;
    }

    private Verdict said(Validation.Verdict v) {
        List<String> unlabelled = v.open().stream()
                .filter(f -> f.rule().equals(UNGROUNDED))
                .map(Finding::subject)
                .toList();
        return new Verdict(protections(v.after()), v.reasons(), v.beside(), unlabelled);
    }
}
