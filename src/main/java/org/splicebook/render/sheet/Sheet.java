package org.splicebook.render.sheet;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What is printed.
 *
 * @param title what it is
 * @param house what people call the house
 * @param stamp revision and date, at the foot of every page
 * @param sureness how sure what stands on it is, at the foot of every page
 * @param blocks what stands on it, in order
 * @param cautions the cautions, at its end; none where they stand among its blocks
 */
public record Sheet(
        String title, String house, String stamp, String sureness, List<Block> blocks, List<String> cautions) {
    /** One thing that stands on a sheet. */
    public sealed interface Block
            permits Title, Words, Grid, Ticks, Picture, Photographs, Cautions, Tag, Label, NewPage {}

    /** A title; what follows it stays with it. */
    public record Title(String words) implements Block {}

    /** A paragraph. */
    public record Words(String words) implements Block {}

    /**
     * A table. Its head is repeated on each page and no row is cut; an empty cell is to be written in.
     *
     * @param isTicked whether an empty cell takes no more than a tick, so that a long list stays short
     */
    public record Grid(List<String> columns, List<List<String>> rows, boolean isTicked) implements Block {
        private static final int SHORT = 14;

        /** A table whose empty cells have room for words and figures. */
        public Grid(List<String> columns, List<List<String>> rows) {
            this(columns, rows, false);
        }

        public Grid {
            columns = List.copyOf(columns);
            rows = rows.stream().map(List::copyOf).toList();
        }

        /** {@return whether a cell is so short that breaking it would make a row higher and a column hardly narrower} */
        public static boolean isShort(String cell) {
            return cell.length() <= SHORT;
        }
    }

    /** Lines with a box to tick before each, numbered where they are in order. */
    public record Ticks(boolean isInOrder, List<String> lines) implements Block {
        public Ticks {
            lines = List.copyOf(lines);
        }
    }

    /** A drawing as SVG. */
    public record Picture(String svg, double width, double height) implements Block {}

    /**
     * A photograph, made small enough for paper.
     *
     * @param jpeg it, in Base64 (RFC 4648)
     * @param width in pixels
     * @param height in pixels
     */
    public record Print(String jpeg, int width, int height) {}

    /**
     * A photograph with what stands under it.
     *
     * @param words what it shows
     * @param print it; null where its file is not on this machine
     */
    public record Photograph(String words, @Nullable Print print) {
        private static final double WIDEST = 84;
        private static final double HIGHEST = 66;

        /** {@return its size on paper, as a style} */
        public String size() {
            if (print == null) {
                return "";
            }
            double scale = Math.min(WIDEST / print.width(), HIGHEST / print.height());
            return String.format(
                    Locale.ROOT, "width: %.1fmm; height: %.1fmm", print.width() * scale, print.height() * scale);
        }
    }

    /** Photographs in rows; none is cut. */
    public record Photographs(List<List<Photograph>> rows) implements Block {
        public Photographs {
            rows = rows.stream().map(List::copyOf).toList();
        }
    }

    /** Cautions that come before what follows them. */
    public record Cautions(List<String> lines) implements Block {
        public Cautions {
            lines = List.copyOf(lines);
        }
    }

    /**
     * A plain tag to cut out.
     *
     * @param code the code to type
     * @param words what it is on
     * @param square the same code as a square that a phone reads, as SVG
     */
    public record Tag(String code, String words, String square) implements Block {}

    /** Something to cut out: lines in large letters, and a small line under them. */
    public record Label(List<String> lines, String small) implements Block {
        public Label {
            lines = List.copyOf(lines);
        }
    }

    /** What follows begins on a page of its own. */
    public record NewPage() implements Block {}

    public Sheet {
        blocks = List.copyOf(blocks);
        cautions = List.copyOf(cautions);
    }
}
