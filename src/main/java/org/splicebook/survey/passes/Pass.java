package org.splicebook.survey.passes;

import java.util.BitSet;

/**
 * A pass: which throws are off in it.
 *
 * @param off by index, as they are thrown; what they feed is off besides
 */
public record Pass(BitSet off) {
    public Pass {
        off = (BitSet) off.clone();
    }

    /** {@return what is off; a copy} */
    @Override
    public BitSet off() {
        return (BitSet) off.clone();
    }

    static Pass of(int... off) {
        BitSet set = new BitSet();
        for (int i : off) {
            set.set(i);
        }
        return new Pass(set);
    }
}
