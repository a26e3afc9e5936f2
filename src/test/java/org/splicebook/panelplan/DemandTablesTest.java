package org.splicebook.panelplan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.splicebook.panelplan.Demand.Method;

/** Every cell of the tables that load calculations go by, typed here a second time. */
class DemandTablesTest {
    private static final double[][] COOKING = {
        {80, 80, 8}, {75, 65, 11}, {70, 55, 14}, {66, 50, 17}, {62, 45, 20},
        {59, 43, 21}, {56, 40, 22}, {53, 36, 23}, {51, 35, 24}, {49, 34, 25},
        {47, 32, 26}, {45, 32, 27}, {43, 32, 28}, {41, 32, 29}, {40, 32, 30},
        {39, 28, 31}, {38, 28, 32}, {37, 28, 33}, {36, 28, 34}, {35, 28, 35},
        {34, 26, 36}, {33, 26, 37}, {32, 26, 38}, {31, 26, 39}, {30, 26, 40}
    };

    @Test
    void cookingUpToTwentyFive() {
        for (int n = 1; n <= COOKING.length; n++) {
            assertThat(new double[] {
                        Cooking.percent("cooking-a", n), Cooking.percent("cooking-b", n), Cooking.kilowatts(n)
                    })
                    .as("%d appliances", n)
                    .containsExactly(COOKING[n - 1]);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "26,30,24",
        "30,30,24",
        "31,30,22",
        "40,30,22",
        "41,30,20",
        "50,30,20",
        "51,30,18",
        "60,30,18",
        "61,30,16",
        "200,30,16"
    })
    void cookingAboveTwentyFive(int n, double a, double b) {
        assertThat(Cooking.percent("cooking-a", n)).isEqualTo(a);
        assertThat(Cooking.percent("cooking-b", n)).isEqualTo(b);
        assertThat(Cooking.kilowatts(n)).isEqualTo(n <= 40 ? 15 + n : 25 + 0.75 * n);
    }

    @Test
    void dryers() {
        double[] first = {100, 100, 100, 100, 85, 75, 65, 60, 55, 50, 47};
        for (int n = 1; n <= 60; n++) {
            double percent = n <= 11 ? first[n - 1] : n <= 23 ? 47 - (n - 11) : n <= 42 ? 35 - 0.5 * (n - 23) : 25;
            assertThat(Cooking.dryerPercent(n)).as("%d dryers", n).isEqualTo(percent);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "3,5,45",
        "6,7,44",
        "8,10,43",
        "11,11,42",
        "12,13,41",
        "14,15,40",
        "16,17,39",
        "18,20,38",
        "21,21,37",
        "22,23,36",
        "24,25,35",
        "26,27,34",
        "28,30,33",
        "31,31,32",
        "32,33,31",
        "34,36,30",
        "37,38,29",
        "39,42,28",
        "43,45,27",
        "46,50,26",
        "51,55,25",
        "56,61,24",
        "62,500,23"
    })
    void buildings(int from, int to, double percent) {
        for (int n = from; n <= to; n++) {
            assertThat(DemandTables.from("units", n)).as("%d units", n).isEqualTo(List.of(percent));
        }
        assertThat(DemandTables.from("units", 2)).isNull();
    }

    /** Ampacity at 75 C, copper and aluminium, smallest first. */
    private static final Map<String, int[]> AMPACITY = Map.ofEntries(
            Map.entry("6", new int[] {65, 50}),
            Map.entry("4", new int[] {85, 65}),
            Map.entry("3", new int[] {100, 75}),
            Map.entry("2", new int[] {115, 90}),
            Map.entry("1", new int[] {130, 100}),
            Map.entry("1/0", new int[] {150, 120}),
            Map.entry("2/0", new int[] {175, 135}),
            Map.entry("3/0", new int[] {200, 155}),
            Map.entry("4/0", new int[] {230, 180}),
            Map.entry("250", new int[] {255, 205}),
            Map.entry("300", new int[] {285, 230}),
            Map.entry("350", new int[] {310, 250}),
            Map.entry("400", new int[] {335, 270}),
            Map.entry("500", new int[] {380, 310}),
            Map.entry("600", new int[] {420, 340}));

    @ParameterizedTest
    @CsvSource({
        "100,4,2,8,8",
        "110,3,1,8,8",
        "125,2,1/0,8,8",
        "150,1,2/0,6,6",
        "175,1/0,3/0,6,6",
        "200,2/0,4/0,4,4",
        "225,3/0,250,4,4",
        "250,4/0,300,2,2",
        "300,250,350,2,2",
        "350,350,500,2,2",
        "400,400,600,1/0,1/0"
    })
    void conductorsOfAWholeDwelling(
            int rating, String copper, String aluminium, String withCopper, String withAluminium) {
        ServiceSize size = ServiceSize.of(of(rating)).orElseThrow();
        assertThat(size).isEqualTo(new ServiceSize(rating, copper, aluminium, withCopper, withAluminium));
        String[] chosen = {copper, aluminium};
        for (int metal = 0; metal < 2; metal++) {
            int column = metal;
            String least = AMPACITY.entrySet().stream()
                    .filter(e -> e.getValue()[column] >= 0.83 * rating)
                    .min(java.util.Comparator.comparingInt(e -> e.getValue()[column]))
                    .orElseThrow()
                    .getKey();
            assertThat(chosen[metal]).as("83 %% of %d A", rating).isEqualTo(least);
        }
    }

    @Test
    void standardRatings() {
        int[] ratings = {
            15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
            500, 600
        };
        assertThat(DemandTables.numbers("ratings").stream().mapToInt(Double::intValue))
                .containsExactly(java.util.Arrays.stream(ratings).boxed().toArray(Integer[]::new));
        assertThat(ServiceSize.of(of(12)).orElseThrow().rating()).isEqualTo(100);
        assertThat(ServiceSize.of(of(150.49)).orElseThrow().rating()).isEqualTo(150);
        assertThat(ServiceSize.of(of(150.50)).orElseThrow().rating()).isEqualTo(175);
        assertThat(ServiceSize.of(of(601))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "general-va,3,3,3,3,2",
        "existing-va,3,3,3,3,2",
        "circuit-va,1500,1500,1500,1500,1500",
        "small-appliance-least,2,2,2,2,2",
        "laundry-least,1,1,1,1,1",
        "general-first,3000,3000,3000,3000,3000",
        "general-second,120000,120000,120000,120000,120000",
        "general-second-percent,35,35,35,35,35",
        "general-rest-percent,25,25,25,25,25",
        "appliances-from,4,4,4,4,4",
        "appliances-percent,75,75,75,75,75",
        "appliance-least,0,0,500,500,500",
        "dryer-least,5000,5000,5000,5000,5000",
        "motor-percent,25,25,25,25,25",
        "vehicle-least,0,0,0,7200,0",
        "vehicle-unknown,0,0,0,7200,7200",
        "vehicle-outside,0,0,0,0,1",
        "optional-first,10000,10000,10000,10000,8000",
        "optional-percent,40,40,40,40,40",
        "existing-first,8000,8000,8000,8000,8000",
        "strip-percent,65,65,65,65,65",
        "few-heaters-percent,65,65,65,65,65",
        "many-heaters-percent,40,40,40,40,40",
        "metered-percent,125,125,125,125,125",
        "continuous-percent,125,125,125,125,125",
        "many-heaters-from,4,4,4,4,4",
        "optional-service-least,100,100,100,100,100",
        "units-least,3,3,3,3,3",
        "neutral-cooking-percent,70,70,70,70,70",
        "neutral-over,200,200,200,200,200",
        "neutral-over-percent,70,70,70,70,70"
    })
    void figuresByEdition(String key, double y2014, double y2017, double y2020, double y2023, double y2026) {
        assertThat(Demands.editions().stream().map(e -> DemandTables.value(key, e)))
                .containsExactly(y2014, y2017, y2020, y2023, y2026);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "general|T220.12|T220.12|220.14(J)|220.41|120.41",
                "general-demand|T220.42|T220.42|T220.42|T220.45|T120.45 (presumed)",
                "optional-general|220.82(B)|220.82(B)|220.82(B)|220.82(B)|120.82(B)",
                "existing-general|220.83|220.83|220.83|220.83|120.83",
                "small-appliance|220.52(A)|220.52(A)|220.52(A)|220.52(A)|120.52(A)",
                "laundry|220.52(B)|220.52(B)|220.52(B)|220.52(B)|120.52(B)",
                "appliances|220.53|220.53|220.53|220.53|120.53",
                "dryers|T220.54|T220.54|T220.54|T220.54|T120.54",
                "ranges|T220.55|T220.55|T220.55|T220.55|T120.55",
                "heat|220.51, 220.60|220.51, 220.60|220.51, 220.60|220.51, 220.60|120.51, 120.60",
                "motor|220.50, 430.24|220.50, 430.24|220.50, 430.24|220.50, 430.24|120.50, 430.24",
                "managed|625.42|750.30, 625.42|750.30, 625.42|220.70, 750.30|120.70, 130",
                "optional|220.82(B)|220.82(B)|220.82(B)|220.82(B)|120.82(B)",
                "optional-climate|220.82(C)|220.82(C)|220.82(C)|220.82(C)|120.82(C)",
                "existing-a|220.83(A)|220.83(A)|220.83(A)|220.83(A)|120.83(A)",
                "existing-b|220.83(B)|220.83(B)|220.83(B)|220.83(B)|120.83(B)",
                "metered|220.87|220.87|220.87|220.87|120.87",
                "units|T220.84|T220.84|T220.84|T220.84|T120.84",
                "neutral|220.61|220.61|220.61|220.61|120.61",
                "vehicle|625.42, nameplate|625.42, nameplate|625.42, nameplate|220.57|120.57",
                "vehicle-optional|220.82(B)|220.82(B)|220.82(B)|220.82(B)|120.82(D)",
                "conductors|310.15(B)(7)|310.15(B)(7)|310.12|310.12|310.12"
            })
    void articlesByEdition(String key, String y2014, String y2017, String y2020, String y2023, String y2026) {
        assertThat(Demands.editions().stream().map(e -> DemandTables.article(key, e)))
                .containsExactly(y2014, y2017, y2020, y2023, y2026);
    }

    @Test
    void lightingBeyondTheSecondStep() {
        // 60,000 ft2 x 3 + 4,500 = 184,500: 3,000 + 35 % of 117,000 + 25 % of 64,500.
        Dwelling d = new Dwelling(60000.0, 2, 1, List.of(), 240, 600.0, List.of());
        assertThat(Demands.standard(d, 2023).va()).isCloseTo(3000 + 40950 + 16125, within(1e-6));
    }

    private static Demand of(double amps) {
        return new Demand(
                Method.STANDARD, "", 2023, List.of(), amps * 240, amps, amps, null, null, List.of(), true, List.of());
    }
}
