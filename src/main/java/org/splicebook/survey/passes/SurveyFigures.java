package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/** Walks surveys in made-up houses to see what each way of choosing passes takes and how often it is right. */
public final class SurveyFigures {
    private static final int POINTS_OF_A_BREAKER = 4;
    private static final int POINTS_IN_A_ROOM = 9;
    private static final double SURE = 0.99;
    /** One misread is corrected from this distance between the words of a code on. */
    private static final int CORRECTING = 3;

    private SurveyFigures() {}

    /** Which houses. */
    public enum Houses {
        /** Every reading right. */
        PLAIN,
        /** Two readings of a hundred wrong, each for itself. */
        MISREAD,
        /** That, and of the points 3 of a hundred out all the while and 3 that stay off once their power was cut. */
        AGAIN,
        /** Every reading right; a third of the breakers in a subpanel. */
        SUBPANEL
    }

    /** One way of choosing passes: what it takes on average, and the share of points that are right. */
    public record Way(String name, double passes, double minutes, double right) {}

    /**
     * What was measured of one kind of house.
     *
     * @param ratio minutes of passes chosen by what they tell, over those of one breaker at a time chosen alike
     */
    public record Row(Houses houses, int breakers, int points, List<Way> ways, double ratio) {
        public Row {
            ways = List.copyOf(ways);
        }
    }

    /** {@return what so many made-up houses of that many breakers take on average, the seeds counted from 1} */
    public static Row row(Houses kind, int breakers, int houses) {
        double[][] sums = new double[3][3];
        Survey survey = survey(kind, breakers);
        for (long seed = 1; seed <= houses; seed++) {
            Simulation walk = new Simulation(survey, truth(kind, survey, seed), Costs.ON_FOOT, SURE, seed);
            boolean isExact = kind == Houses.PLAIN || kind == Houses.SUBPANEL;
            add(sums[0], walk.adaptive(), houses);
            add(sums[1], walk.planned(Plans.coded(survey, isExact ? 1 : CORRECTING)), houses);
            add(sums[2], walk.singly(), houses);
        }
        List<String> names = List.of("chosen", "coded", "singly");
        List<Way> ways = new ArrayList<>();
        for (int i = 0; i < sums.length; i++) {
            ways.add(new Way(names.get(i), sums[i][0], sums[i][1], sums[i][2]));
        }
        return new Row(kind, breakers, survey.points().size(), ways, sums[0][1] / sums[2][1]);
    }

    private static void add(double[] sums, Simulation.Outcome out, int houses) {
        sums[0] += (double) out.passes() / houses;
        sums[1] += out.minutes() / houses;
        sums[2] += out.accuracy() / houses;
    }

    private static Survey survey(Houses kind, int breakers) {
        List<Throw> throwing = IntStream.rangeClosed(1, breakers)
                .mapToObj(i -> kind == Houses.SUBPANEL && i > breakers - breakers / 3
                        ? Throw.free("sub." + i).under(0)
                        : Throw.free("main." + i))
                .toList();
        List<Point> points = IntStream.range(0, POINTS_OF_A_BREAKER * breakers)
                .mapToObj(i -> new Point("point-" + i, "room-" + i / POINTS_IN_A_ROOM, "device-" + i))
                .toList();
        return Survey.plain(
                throwing,
                points,
                switch (kind) {
                    case PLAIN, SUBPANEL -> Chances.PLAIN;
                    case MISREAD -> Chances.PLAIN.withMisreads(0.02);
                    case AGAIN -> Chances.OLD_HOUSE.withMisreads(0.02);
                });
    }

    /** Rooms have few breakers, as rooms do. */
    private static List<Cause> truth(Houses kind, Survey survey, long seed) {
        Random random = new Random(seed);
        int n = survey.throwing().size();
        int first = kind == Houses.SUBPANEL ? 1 : 0; // the feeder itself feeds no point
        List<Cause> truth = new ArrayList<>();
        for (int p = 0; p < survey.points().size(); p++) {
            int usual = Math.floorMod(survey.points().get(p).place().hashCode() * 31 + (int) seed, n - first) + first;
            int a = random.nextDouble() < 0.4 ? usual : first + random.nextInt(n - first);
            int what = kind == Houses.AGAIN ? random.nextInt(100) : 100;
            truth.add(
                    what < 3
                            ? new Cause(Cause.Kind.ALWAYS_OUT, -1, -1)
                            : what < 6 ? new Cause(Cause.Kind.LATCHED, a, -1) : Cause.once(a));
        }
        return truth;
    }
}
