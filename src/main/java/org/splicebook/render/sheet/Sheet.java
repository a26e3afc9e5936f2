package org.splicebook.render.sheet;

import java.util.List;

/**
 * What is printed.
 *
 * @param title what it is
 * @param house what people call the house
 * @param stamp revision and date, at the foot of every page
 * @param sureness how sure what stands on it is, at the foot of every page
 * @param blocks what stands on it, in order
 * @param cautions the cautions, at its end
 */
public record Sheet(
        String title, String house, String stamp, String sureness, List<Block> blocks, List<String> cautions) {
    /** One thing that stands on a sheet. */
    public sealed interface Block permits Title, Words, Grid, Ticks, Picture, Tag, Label, NewPage {}

    /** A title; what follows it stays with it. */
    public record Title(String words) implements Block {}

    /** A paragraph. */
    public record Words(String words) implements Block {}

    /** A table. Its head is repeated on each page and no row is cut; an empty cell is to be written in. */
    public record Grid(List<String> columns, List<List<String>> rows) implements Block {
        public Grid {
            columns = List.copyOf(columns);
            rows = rows.stream().map(List::copyOf).toList();
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
