package org.splicebook.render.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.record.House;

/** A drawing being made: lines, frames and words, written as SVG. */
final class Sketch {
    static final double SMALL = 11;
    static final double PLAIN = 13;
    static final double LARGE = 16;
    static final double LINE = 16;
    static final double MARGIN = 12;

    private static final String CAUTION = "From the record, which proves nothing dead: test every wire.";

    private static final String BROAD = "mwMW@%—→";
    private static final String NARROW = "iljtfrI.,:;'|()[]! ";

    /** Whose wiring it shows, told at the foot. */
    private final String house;

    private final StringBuilder body = new StringBuilder();
    private final List<Drawing.Label> labels = new ArrayList<>();
    private double right;
    private double bottom;

    Sketch(House house) {
        this.house = house.said();
    }

    /** {@return no less than the width of the words in any usual sans-serif face} */
    static double width(String text, double size, boolean bold) {
        double em = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            em += BROAD.indexOf(c) >= 0
                    ? 1.02
                    : NARROW.indexOf(c) >= 0 ? 0.42 : Character.isUpperCase(c) ? 0.8 : c > 0x2000 ? 1.05 : 0.66;
        }
        return em * size * (bold ? 1.1 : 1);
    }

    /** {@return the words in lines that are no wider than that; a longer word stands alone} */
    static List<String> wrap(String text, double size, double most) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ")) {
            if (line.length() > 0 && width(line + " " + word, size, false) > most) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.length() == 0 ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }

    Sketch text(double x, double baseline, double size, String text) {
        return text(x, baseline, size, text, false);
    }

    Sketch bold(double x, double baseline, double size, String text) {
        return text(x, baseline, size, text, true);
    }

    private Sketch text(double x, double baseline, double size, String text, boolean bold) {
        if (text.isBlank()) {
            return this;
        }
        labels.add(new Drawing.Label(text, x, baseline, size, bold));
        reach(x + width(text, size, bold), baseline + size * 0.3);
        body.append(String.format(
                Locale.ROOT,
                "<text x=\"%.1f\" y=\"%.1f\" font-size=\"%.0f\"%s>%s</text>%n",
                x,
                baseline,
                size,
                bold ? " font-weight=\"bold\"" : "",
                escape(text)));
        return this;
    }

    /** A frame; dashed where what it holds is not wholly known. */
    Sketch frame(double x, double y, double w, double h, double thick, boolean known) {
        reach(x + w, y + h);
        body.append(String.format(
                Locale.ROOT,
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" stroke=\"currentColor\""
                        + " stroke-width=\"%.1f\"%s/>%n",
                x,
                y,
                w,
                h,
                thick,
                known ? "" : " stroke-dasharray=\"5 4\""));
        return this;
    }

    Sketch bar(double x, double y, double w, double h, double opacity) {
        reach(x + w, y + h);
        body.append(String.format(
                Locale.ROOT,
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"currentColor\" fill-opacity=\"%.2f\"/>%n",
                x,
                y,
                Math.max(0, w),
                h,
                opacity));
        return this;
    }

    Sketch dot(double x, double y, double radius, boolean filled) {
        reach(x + radius, y + radius);
        body.append(String.format(
                Locale.ROOT,
                "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\" fill=\"%s\" stroke=\"currentColor\"/>%n",
                x,
                y,
                radius,
                filled ? "currentColor" : "none"));
        return this;
    }

    /** A line in the colour of the text, through points {@code x, y, x, y, ...}. */
    Sketch line(double thick, String dashes, double... points) {
        return stroke("currentColor", thick, dashes, points);
    }

    /** A wire in the colour of its insulation, cased so that white and black are seen on any ground. */
    Sketch wire(Insulation colour, double... points) {
        stroke("currentColor", 5, "", points);
        stroke(Insulation.CASING, 3.8, "", points);
        return colour.isKnown() ? stroke(colour.colour(), 3.4, colour.dashes(), points) : this;
    }

    private Sketch stroke(String colour, double thick, String dashes, double... points) {
        StringBuilder d = new StringBuilder();
        for (int i = 0; i < points.length; i += 2) {
            reach(points[i], points[i + 1]);
            d.append(String.format(Locale.ROOT, "%.1f,%.1f ", points[i], points[i + 1]));
        }
        body.append(String.format(
                Locale.ROOT,
                "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%.1f\"%s/>%n",
                d.toString().trim(),
                colour,
                thick,
                dashes.isEmpty() ? "" : " stroke-dasharray=\"" + dashes + "\""));
        return this;
    }

    private void reach(double x, double y) {
        right = Math.max(right, x);
        bottom = Math.max(bottom, y);
    }

    /** Ends it with the caution that every drawing bears. */
    Drawing done(String title, String said) {
        text(MARGIN, bottom + LINE + MARGIN, SMALL, house + ".");
        text(MARGIN, bottom + LINE, SMALL, CAUTION);
        double w = Math.ceil(right + MARGIN);
        double h = Math.ceil(bottom + MARGIN);
        String svg = String.format(
                        Locale.ROOT,
                        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"%.0f\" height=\"%.0f\" viewBox=\"0 0 %.0f %.0f\""
                                + " font-family=\"sans-serif\" fill=\"currentColor\">%n<title>%s</title>%n<desc>%s</desc>%n",
                        w,
                        h,
                        w,
                        h,
                        escape(title),
                        escape(said + " " + CAUTION))
                + body + "</svg>\n";
        return new Drawing(title, said, svg, w, h, labels);
    }

    private static String escape(String s) {
        StringBuilder out = new StringBuilder(s.length());
        s.codePoints()
                .filter(c -> c >= 0x20 && c != 0xFFFE && c != 0xFFFF && (c < 0xD800 || c > 0xDFFF))
                .forEach(c -> {
                    switch (c) {
                        case '&' -> out.append("&amp;");
                        case '<' -> out.append("&lt;");
                        case '>' -> out.append("&gt;");
                        case '"' -> out.append("&quot;");
                        default -> out.appendCodePoint(c);
                    }
                });
        return out.toString();
    }
}
