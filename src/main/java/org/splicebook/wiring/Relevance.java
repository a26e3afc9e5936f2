package org.splicebook.wiring;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Which levers of a region matter to a target: those in the blocks between it and the roots of each of the trees over the region. */
final class Relevance {
    /** The levers in each block of a tree; null for a block that has none. */
    @SuppressWarnings("ArrayRecordComponent") // by block, never compared
    private record Levers(BlockTree tree, @Nullable BitSet[] byBlock) {}

    private final BlockTree last;
    /** Of the trees that have any. */
    private final List<Levers> all = new ArrayList<>();

    /**
     * @param free the levers that are asked about
     * @param trees each built from roots of the region, all levers joined
     */
    Relevance(Net net, Regions.Region region, int[] free, List<BlockTree> trees) {
        BitSet asked = new BitSet();
        for (int l : free) {
            asked.set(l);
        }
        last = trees.get(trees.size() - 1);
        for (BlockTree tree : trees) {
            @Nullable BitSet[] byBlock = null;
            for (int v : region.vertices) {
                if (net.lever[v] >= 0 && asked.get(net.lever[v]) && tree.reaches(v)) {
                    byBlock = byBlock == null ? new BitSet[tree.blocks()] : byBlock;
                    BitSet levers = byBlock[tree.blockOf(v)];
                    levers = levers == null ? new BitSet() : levers;
                    levers.set(net.lever[v]);
                    byBlock[tree.blockOf(v)] = levers;
                }
            }
            if (byBlock != null) {
                all.add(new Levers(tree, byBlock));
            }
        }
    }

    /** Adds the levers that matter to a target in any of the trees. */
    void add(BitSet set, int target) {
        for (Levers l : all) {
            if (l.tree.reaches(target)) {
                l.tree.addOnLine(target, l.byBlock, set);
            }
        }
    }

    /** Adds the levers that matter to a target in the last of the trees. */
    void addOfLast(BitSet set, int target) {
        for (Levers l : all) {
            if (l.tree == last && last.reaches(target)) {
                last.addOnLine(target, l.byBlock, set);
            }
        }
    }
}
