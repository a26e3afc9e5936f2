package org.splicebook.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Revision;
import picocli.CommandLine.Option;

/** Which house. */
final class HouseOption {
    @Option(
            names = "--house",
            paramLabel = "HOUSE",
            description = "The house; may be left out where only one is stored.")
    private @Nullable String house;

    boolean isSaid() {
        return house != null;
    }

    /** {@return the house that is named, else the only one that is stored} */
    String of(HouseStore houses) {
        if (house != null) {
            return house;
        }
        List<String> ids = houses.listHouses().stream().map(Revision::house).toList();
        if (ids.size() == 1) {
            return ids.get(0);
        }
        throw new ProblemException(Problem.error(
                ProblemKind.MISSING,
                Where.field("--house"),
                ids.isEmpty() ? "No house is stored yet." : "There are " + ids.size() + " houses.",
                ids.isEmpty()
                        ? "The command load stores one from a house file."
                        : "Say which with --house: " + String.join(", ", ids.subList(0, Math.min(10, ids.size())))
                                + "."));
    }
}
