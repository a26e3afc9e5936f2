package org.splicebook.record;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A panel: a box with supply lugs {@code line-1}.., buses, breakers by space, bars {@code n} and {@code g}.
 *
 * @param name its key
 * @param place where it hangs
 * @param supply what feeds it: sources (joined to lugs and bars by themselves) or feeder cables (whose wires land by joints)
 * @param spaces how many spaces
 * @param rating bus rating
 * @param main the main, or null for main lugs only
 * @param breakers by key ({@code 3}, {@code 2+4}, {@code 5a})
 * @param ties groups of spaces whose handles are tied: opened together by hand, tripping apart
 * @param pullOuts fuse spaces in one pull-out, by the name on it: opened together by hand
 * @param exclusive groups of which only one member may be closed at a time; members are {@code main}, breaker keys or supplies
 * @param legs leg letter by space where the usual row rule does not hold
 * @param buses further buses of a split-bus panel
 * @param bonded whether neutral and ground are joined in it (beside the source's main bond)
 * @param neutralFuse a fuse in the supply neutral, as in very old panels
 * @param electrode measured resistance to earth of the grounding electrode at its ground bar; null where none is known
 * @param joints its landings; every wire on a bar, lug or breaker is a joint of its own
 * @param complete what is wholly listed; null takes the house's default
 * @param about basis, age, note
 */
public record Panel(
        String name,
        @Nullable String place,
        List<String> supply,
        @Nullable Integer spaces,
        @Nullable Quantity rating,
        @Nullable MainDisconnect main,
        Map<String, Breaker> breakers,
        List<List<String>> ties,
        Map<String, List<String>> pullOuts,
        List<List<String>> exclusive,
        Map<String, String> legs,
        Map<String, SubBus> buses,
        boolean bonded,
        @Nullable Quantity neutralFuse,
        @Nullable Quantity electrode,
        List<Joint> joints,
        @Nullable Set<Complete> complete,
        Provenance about) {
    public Panel {
        supply = List.copyOf(supply);
        breakers = Ordered.map(breakers);
        ties = ties.stream().map(List::copyOf).toList();
        pullOuts = Ordered.map(pullOuts);
        exclusive = exclusive.stream().map(List::copyOf).toList();
        legs = Ordered.map(legs);
        buses = Ordered.map(buses);
        joints = List.copyOf(joints);
        complete = complete == null ? null : Ordered.set(complete);
    }

    /** A panel without a measured electrode. */
    public Panel(
            String name,
            @Nullable String place,
            List<String> supply,
            @Nullable Integer spaces,
            @Nullable Quantity rating,
            @Nullable MainDisconnect main,
            Map<String, Breaker> breakers,
            List<List<String>> ties,
            Map<String, List<String>> pullOuts,
            List<List<String>> exclusive,
            Map<String, String> legs,
            Map<String, SubBus> buses,
            boolean bonded,
            @Nullable Quantity neutralFuse,
            List<Joint> joints,
            @Nullable Set<Complete> complete,
            Provenance about) {
        this(
                name,
                place,
                supply,
                spaces,
                rating,
                main,
                breakers,
                ties,
                pullOuts,
                exclusive,
                legs,
                buses,
                bonded,
                neutralFuse,
                null,
                joints,
                complete,
                about);
    }

    /** {@return the same panel with this said of it} */
    public Panel withAbout(Provenance other) {
        return new Panel(
                name,
                place,
                supply,
                spaces,
                rating,
                main,
                breakers,
                ties,
                pullOuts,
                exclusive,
                legs,
                buses,
                bonded,
                neutralFuse,
                electrode,
                joints,
                complete,
                other);
    }

    /** {@return the same panel with these joints, and this said of what is wholly listed} */
    public Panel withJoints(List<Joint> others, @Nullable Set<Complete> listed) {
        return new Panel(
                name,
                place,
                supply,
                spaces,
                rating,
                main,
                breakers,
                ties,
                pullOuts,
                exclusive,
                legs,
                buses,
                bonded,
                neutralFuse,
                electrode,
                others,
                listed,
                about);
    }
}
