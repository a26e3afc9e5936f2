package org.splicebook.survey.passes;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/** Surveys of made-up houses, and what is true in them. */
final class Walks {
    private Walks() {}

    static List<Throw> breakers(int n) {
        return IntStream.rangeClosed(1, n)
                .mapToObj(i -> Throw.free("main." + i))
                .toList();
    }

    /** Nine points to a room, as they come. */
    static List<Point> points(int n) {
        return IntStream.range(0, n)
                .mapToObj(i -> new Point("point-" + i, "room-" + i / 9, "device-" + i))
                .toList();
    }

    /** Each point on one breaker; rooms have few breakers, as rooms do. */
    static List<Cause> singleFeeds(Survey survey, long seed) {
        Random random = new Random(seed);
        int n = survey.throwing().size();
        List<Cause> truth = new ArrayList<>();
        for (int p = 0; p < survey.points().size(); p++) {
            int first = Math.abs(survey.points().get(p).place().hashCode() * 31 + (int) seed) % n;
            truth.add(Cause.once(random.nextDouble() < 0.4 ? first : random.nextInt(n)));
        }
        return truth;
    }
}
