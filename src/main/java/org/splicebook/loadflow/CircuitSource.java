package org.splicebook.loadflow;

import org.splicebook.record.SourceSystem;

/**
 * A source in the circuit: a winding from a star point, and a drop from there to the house.
 *
 * @param name its name; {@code ?} for one that is not recorded
 * @param system its system
 * @param star the node of its star point
 * @param windings the node at the end of each winding, in order of poles
 * @param windingBranches the branch from the star to each winding's end
 * @param mutual in split phase the branch between the two windings' ends; else -1
 * @param model what stands behind it where the case does not say
 */
record CircuitSource(
        String name,
        SourceSystem system,
        int star,
        java.util.List<Integer> windings,
        java.util.List<Integer> windingBranches,
        int mutual,
        SourceModel model) {}
