package org.splicebook.render.drawing;

import java.util.List;

/**
 * One drawing.
 *
 * @param title what it shows, in a few words
 * @param said the same in sentences, for those who do not see it
 * @param svg the SVG text, with {@code title} and {@code desc}
 * @param width its width in CSS pixels
 * @param height its height in CSS pixels
 * @param labels every word on it and where it stands
 */
public record Drawing(String title, String said, String svg, double width, double height, List<Label> labels) {
    public Drawing {
        labels = List.copyOf(labels);
    }

    /**
     * One line of words.
     *
     * @param text the words
     * @param x left edge
     * @param baseline where the words stand
     * @param size height of the letters
     * @param bold whether the letters are bold
     */
    public record Label(String text, double x, double baseline, double size, boolean bold) {}
}
