package org.splicebook.web.view;

import java.util.List;
import java.util.stream.Stream;

/**
 * The sheet of readings, to be typed back in.
 *
 * @param action where it is sent
 * @param lead a sentence at its top
 * @param wrong what was wrong with what was sent; empty at first
 * @param places the places, each leading to its own load points
 * @param top what holds for every reading
 * @param groups the load points, by place
 * @param cautions the cautions that apply
 */
public record ReadingsPage(
        String action,
        String lead,
        List<Wrong.Line> wrong,
        List<Link> places,
        List<Input> top,
        List<Group> groups,
        List<String> cautions) {
    /**
     * The load points of one place.
     *
     * @param title the place
     * @param isOpen whether they are shown at once: there is one place only, or something stands in one of them
     * @param lines the load points
     */
    public record Group(String title, boolean isOpen, List<Line> lines) {
        public Group {
            lines = List.copyOf(lines);
        }
    }

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

        /** {@return whether something was written in it, or is wrong with it} */
        public boolean isWritten() {
            return cells.stream()
                    .anyMatch(c -> !c.value().isEmpty() || !c.wrong().isEmpty());
        }
    }

    /** {@return the name of the first field with which something is wrong; empty for none} */
    public String firstWrong() {
        return Stream.concat(
                        top.stream(),
                        groups.stream().flatMap(g -> g.lines().stream()).flatMap(l -> l.cells().stream()))
                .filter(i -> !i.wrong().isEmpty())
                .map(Input::name)
                .findFirst()
                .orElse("");
    }

    public ReadingsPage {
        wrong = List.copyOf(wrong);
        places = List.copyOf(places);
        top = List.copyOf(top);
        groups = List.copyOf(groups);
        cautions = List.copyOf(cautions);
    }
}
