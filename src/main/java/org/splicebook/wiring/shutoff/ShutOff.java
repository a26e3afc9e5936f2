package org.splicebook.wiring.shutoff;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.Way;

/**
 * What must be off, locked and tested before hands come to a target (design ruling 10). It predicts; only a test tells.
 *
 * @param target what is to be opened, cut or drilled into
 * @param verdict what can be said of it
 * @param toThrow what must be thrown, in order
 * @param clearingEverythingIsSafer whether it is the safer order to throw what clears every source
 * @param everything the throws that clear every source, in order
 * @param wires why: each wire of the target with each breaker that may reach it
 * @param alternates the sources beside the usual one that may reach the target
 * @param staysLive what stays live with all of these throws
 * @param affected what else loses power with {@code toThrow}
 * @param tests every test to make before a hand goes in, most likely live first; none may be dropped
 * @param excluded the breakers that need not be thrown, and what excludes each
 * @param openBoxes the boxes and panels where something not recorded may join the target's wires
 * @param proof the recomputation
 */
public record ShutOff(
        Target target,
        Verdict verdict,
        List<Throw> toThrow,
        boolean clearingEverythingIsSafer,
        List<Throw> everything,
        List<WireReason> wires,
        List<Alternate> alternates,
        List<StaysLive> staysLive,
        List<Affected> affected,
        List<ToTest> tests,
        List<Excluded> excluded,
        List<String> openBoxes,
        Proof proof) {
    public ShutOff {
        toThrow = List.copyOf(toThrow);
        everything = List.copyOf(everything);
        wires = List.copyOf(wires);
        alternates = List.copyOf(alternates);
        staysLive = List.copyOf(staysLive);
        affected = List.copyOf(affected);
        tests = List.copyOf(tests);
        excluded = List.copyOf(excluded);
        openBoxes = List.copyOf(openBoxes);
    }

    /** How a breaker's current may come to a wire. */
    public enum How {
        /** Over wires, switches in any position counted as closed. */
        OVER_WIRES,
        /** Through a load or transformer: also a neutral that this breaker's load returns on, once it is parted. */
        THROUGH_LOAD
    }

    /**
     * One throw by one hand.
     *
     * @param panel the panel
     * @param place where the panel hangs, if known
     * @param isMain whether it is the panel's main
     * @param breakers the breakers it opens ({@code main.2+4}), tied ones and those of one pull-out together; for a main the panel's name
     * @param sureness SHOWN where the record shows the way, MAY where it is only not excluded
     * @param partners those of {@code breakers} that are thrown only because they move together
     */
    public record Throw(
            String panel,
            @Nullable String place,
            boolean isMain,
            List<String> breakers,
            Sureness sureness,
            List<String> partners) {
        public Throw {
            breakers = List.copyOf(breakers);
            partners = List.copyOf(partners);
        }
    }

    /**
     * Why a breaker must be off for one wire.
     *
     * @param wire the wire end ({@code K1.black@2}), wire, or metal ({@code bench.box})
     * @param breaker the breaker, or the panel whose main it is
     * @param how over wires or through a load
     * @param sureness SHOWN where the record shows the way; MAY where it passes something not recorded
     * @param way one shortest way, from the wire
     */
    public record WireReason(String wire, String breaker, How how, Sureness sureness, Way way) {}

    /**
     * A source beside the usual one.
     *
     * @param source its name; {@code ?} for a supply that nobody recorded
     * @param hasThrow whether something recorded can be opened between it and the target; if not, it must be stopped and disconnected itself
     */
    public record Alternate(String source, boolean hasThrow) {}

    /**
     * What stays live even then.
     *
     * @param source the source that keeps it live
     * @param things what: cables, lugs, terminals
     * @param boxes the boxes and panels it is in
     */
    public record StaysLive(String source, List<Thing> things, List<String> boxes) {
        public StaysLive {
            things = List.copyOf(things);
            boxes = List.copyOf(boxes);
        }
    }

    /**
     * A load point that loses power.
     *
     * @param loadPoint its id
     * @param device its device
     * @param box its box
     * @param place its place
     * @param care what must be thought of before it goes off, if anything
     * @param surely whether it does in any case; else it may
     */
    public record Affected(
            String loadPoint,
            String device,
            String box,
            @Nullable String place,
            @Nullable Care care,
            boolean surely) {}

    /**
     * One reading to take before a hand goes in.
     *
     * @param conductor a wire end or metal
     * @param against another, or null for a ground that is known good outside the target
     */
    public record ToTest(String conductor, @Nullable String against) {}

    /**
     * A breaker that need not be thrown.
     *
     * @param breaker the breaker
     * @param tests the sightings that exclude it where the wiring alone does not; empty: complete seen wiring does
     */
    public record Excluded(String breaker, List<String> tests) {
        public Excluded {
            tests = List.copyOf(tests);
        }
    }

    /**
     * The recomputation: with the throws made, nothing reaches the target whatever is lifted in it.
     *
     * @param holds whether in every variant nothing recorded reaches it
     * @param variants each wire end lifted in turn, nothing lifted, all apart
     */
    public record Proof(boolean holds, List<Variant> variants) {
        public Proof {
            variants = List.copyOf(variants);
        }

        /**
         * One recomputation.
         *
         * @param lifted the wire end lifted (of a cable: the wire cut); empty: nothing; {@code *}: all apart
         * @param by the breakers and sources that still reach the target; empty: none
         */
        public record Variant(String lifted, List<String> by) {
            public Variant {
                by = List.copyOf(by);
            }
        }
    }

    /**
     * {@return what must be off before hands come to a target}
     *
     * @param house the record
     * @param standing the sightings that still stand (see {@link org.splicebook.wiring.evidence.Expiry})
     * @param target the target; every name in it must be in the record
     * @throws IllegalArgumentException if a box, panel or cable of the target is not in the record
     */
    public static ShutOff of(House house, List<Sighting> standing, Target target) {
        return ShutOffs.of(house, standing).of(target);
    }
}
