package org.splicebook.web.view;

import java.util.List;

/**
 * The sheet of readings, to be typed back in.
 *
 * @param action where it is sent
 * @param lead a sentence at its top
 * @param wrong what was wrong with what was sent; empty at first
 * @param places the places, each leading to its own load points
 * @param top what holds for every reading
 * @param lines the load points
 * @param cautions the cautions that apply
 */
public record ReadingsPage(
        String action,
        String lead,
        List<String> wrong,
        List<Link> places,
        List<Input> top,
        List<Line> lines,
        List<String> cautions) {
    /**
     * One load point.
     *
     * @param point its name
     * @param where its place, and which breaker is recorded
     * @param cells what may be read there
     */
    public record Line(String point, String where, List<Input> cells) {
        public Line {
            cells = List.copyOf(cells);
        }
    }

    public ReadingsPage {
        wrong = List.copyOf(wrong);
        places = List.copyOf(places);
        top = List.copyOf(top);
        lines = List.copyOf(lines);
        cautions = List.copyOf(cautions);
    }
}
