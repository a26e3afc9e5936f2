package org.splicebook.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.TellReader;
import picocli.CommandLine.Option;

/** What people say beside a record, for a load calculation. */
final class TellOptions {
    @Option(names = "--area", paramLabel = "AREA", description = "Floor area by outside dimensions: 1800 ft2, 168 m2.")
    private @Nullable String area;

    @Option(names = "--small-appliance", paramLabel = "N", description = "How many small-appliance circuits.")
    private @Nullable Integer smallAppliance;

    @Option(names = "--laundry", paramLabel = "N", description = "How many laundry circuits.")
    private @Nullable Integer laundry;

    @Option(names = "--rating", paramLabel = "AMPERES", description = "What it is held against: 100 A.")
    private @Nullable String rating;

    @Option(
            names = "--nameplate",
            paramLabel = "DEVICE=SIZE",
            description = "What a recorded device's plate says: range=12 kW.")
    private Map<String, String> nameplates = new LinkedHashMap<>();

    @Option(
            names = "--add",
            paramLabel = "LOAD",
            description =
                    "A load to be added: \"ev 48 A\", \"heat pump 5.7 kVA\", \"ev 48 A held to 16 A\", \"tub: appliance 6 kW\", \"dishwasher 1.2 kW at 120 V\".")
    private List<String> add = List.of();

    @Option(
            names = "--without",
            paramLabel = "DEVICE",
            description = "A recorded device to leave out, for example one that is replaced.")
    private List<String> without = List.of();

    @Option(names = "--all-listed", description = "There is no fixed load beside those recorded and added.")
    private boolean allListed;

    @Option(
            names = "--peak",
            paramLabel = "POWER",
            description = "Greatest demand of the metered record, for the metered method: 8.4 kW.")
    private @Nullable String peak;

    @Option(
            names = "--raise",
            paramLabel = "FACTOR",
            description = "By how much averages over more than a quarter of an hour are raised: 1.3.")
    private @Nullable String raise;

    @Option(
            names = "--season",
            paramLabel = "POWER",
            description =
                    "For 30 days of readings: \"ran\" where the larger of heating and cooling ran, else what is added for it: 9.6 kW.")
    private @Nullable String season;

    /** Tells a reader what was said. */
    void tell(TellReader reader) {
        if (area != null) {
            reader.area(area);
        }
        if (smallAppliance != null) {
            reader.smallAppliance(smallAppliance);
        }
        if (laundry != null) {
            reader.laundry(laundry);
        }
        if (rating != null) {
            reader.rating(rating);
        }
        nameplates.forEach(reader::nameplate);
        add.forEach(reader::add);
        without.forEach(reader::without);
        if (allListed) {
            reader.allListed();
        }
        if (peak != null) {
            reader.peak(peak);
        }
        if (raise != null) {
            reader.raise(raise);
        }
        if (season != null) {
            reader.season(season);
        }
    }
}
