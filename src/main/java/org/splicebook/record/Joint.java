package org.splicebook.record;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Wire ends and terminals that are connected together. One member alone: seen capped.
 *
 * @param members what touches, tails included
 * @param hold what holds them together
 * @param holders with {@link Hold#TAIL} the terminals reached by pigtails, with {@link Hold#DEVICE} the one whose screws hold
 * @param by how, for example {@code lever}; null when not said
 * @param about basis, age, note
 */
public record Joint(
        List<Ref> members,
        Hold hold,
        List<Ref> holders,
        @Nullable By by,
        Provenance about) {
    /** What holds a joint together. */
    public enum Hold {
        /** Not said: computed as held by the device if one is in it, the cautious reading. */
        UNSAID,
        /** The device's own screws: taking the device out parts the joint. */
        DEVICE,
        /** A splice of its own, with pigtails to the devices named. */
        TAIL,
        /** A splice of its own. */
        SPLICE
    }

    /** How wires are joined. */
    public enum By {
        SCREW("screw"),
        CLAMP_PLATE("clamp plate"),
        PUSH_IN("push-in"),
        TWIST_ON("twist-on"),
        LEVER("lever"),
        CRIMP("crimp"),
        SOLDER("solder"),
        SELF_GROUNDING("self-grounding"),
        OTHER("other");

        private final String word;

        By(String word) {
            this.word = word;
        }

        /** {@return the word of the house file} */
        public String word() {
            return word;
        }
    }

    public Joint {
        members = List.copyOf(members);
        holders = List.copyOf(holders);
    }
}
