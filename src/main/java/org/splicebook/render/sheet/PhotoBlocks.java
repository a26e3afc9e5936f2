package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.record.Attachments;
import org.splicebook.record.Photo;
import org.splicebook.render.sheet.Sheet.Block;
import org.splicebook.render.sheet.Sheet.Photograph;
import org.splicebook.render.sheet.Sheet.Photographs;
import org.splicebook.render.sheet.Sheet.Title;
import org.splicebook.render.sheet.Sheet.Words;

/** Photographs on one sheet: small, two beside each other. What is not printed is told, so that nobody thinks there is no more. */
final class PhotoBlocks {
    /** Most that are printed of one box, panel or cable: a page full. */
    static final int MOST_OF_ONE = 6;

    /** Most that are printed on one sheet, so that the record of a large house can still be made and carried. */
    static final int MOST = 120;

    static final String CAUTION = "They show what was there on their day. What is live now they do not show.";
    private static final int IN_A_ROW = 2;

    private final Source source;
    private int printed;

    PhotoBlocks(Source source) {
        this.source = source;
    }

    /** {@return the photographs of some parts under a title, the newest where there are many; nothing where there are none} */
    List<Block> of(String title, List<Attachments.Part> parts) {
        record Of(String said, Photo photo) {}
        List<Of> all = parts.stream()
                .flatMap(p -> p.about().photos().stream().map(f -> new Of(p.said(), f)))
                .toList();
        if (all.isEmpty()) {
            return List.of();
        }
        int shown = Math.min(all.size(), Math.min(MOST_OF_ONE, MOST - printed));
        printed += shown;
        List<Photograph> photographs = all.subList(all.size() - shown, all.size()).stream()
                .map(o -> new Photograph(
                        o.photo().said(o.said()),
                        source.photographs().apply(o.photo().file()).orElse(null)))
                .toList();
        List<List<Photograph>> rows = new ArrayList<>();
        for (int i = 0; i < shown; i += IN_A_ROW) {
            rows.add(photographs.subList(i, Math.min(shown, i + IN_A_ROW)));
        }
        List<Block> blocks = new ArrayList<>(List.of(new Title(title), new Words(CAUTION)));
        if (shown > 0) {
            blocks.add(new Photographs(rows));
        }
        int left = all.size() - shown;
        if (left > 0) {
            blocks.add(new Words((left == 1 ? "One more is" : left + " more are")
                    + " kept with the record, and not printed here: see its page."));
        }
        return blocks;
    }
}
