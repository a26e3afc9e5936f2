package org.splicebook.panelplan;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The service that a demand needs, and what it is wired with.
 *
 * @param rating the least standard rating, at least 100 A for one dwelling (240.6(A), 230.79(C))
 * @param copper size of the conductors that carry the whole dwelling's load, in copper; null where the table has no such rating
 * @param aluminium the same in aluminium
 * @param electrodeOfCopper copper grounding electrode conductor with copper service conductors
 * @param electrodeOfAluminium copper grounding electrode conductor with aluminium service conductors
 */
public record ServiceSize(
        int rating,
        @Nullable String copper,
        @Nullable String aluminium,
        @Nullable String electrodeOfCopper,
        @Nullable String electrodeOfAluminium) {
    /** {@return the least service for a demand, if a standard rating reaches it} */
    public static Optional<ServiceSize> of(Demand demand) {
        double least = Math.max((double) demand.wholeAmps(), DemandTables.single("least-service"));
        return DemandTables.numbers("ratings").stream()
                .filter(r -> r >= least)
                .findFirst()
                .map(r -> ofRating(r.intValue()));
    }

    /** {@return the least standard rating of an overcurrent device that is not below so many amperes (240.6(A)); null above the list} */
    public static @Nullable Integer standard(double amperes) {
        return DemandTables.numbers("ratings").stream()
                .filter(r -> r >= amperes)
                .findFirst()
                .map(Double::intValue)
                .orElse(null);
    }

    /** {@return what a service of a rating is wired with} */
    public static ServiceSize ofRating(int rating) {
        List<String> row = DemandTables.row("conductors", String.valueOf(rating));
        if (row == null) {
            return new ServiceSize(rating, null, null, null, null);
        }
        return new ServiceSize(rating, row.get(0), row.get(1), electrode(row.get(0), 0), electrode(row.get(1), 1));
    }

    /** Table 250.66. */
    private static @Nullable String electrode(String size, int column) {
        List<String> sizes = DemandTables.words("sizes");
        return DemandTables.rows("electrode").stream()
                .filter(r -> sizes.contains(r.get(column)) && sizes.indexOf(size) <= sizes.indexOf(r.get(column)))
                .findFirst()
                .map(r -> r.get(2))
                .orElse(null);
    }
}
