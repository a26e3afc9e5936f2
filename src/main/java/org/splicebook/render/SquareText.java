package org.splicebook.render;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A square that a phone reads (QR code, ISO/IEC 18004), drawn with signs on a terminal: two of its rows to a line. */
public final class SquareText {
    private static final int QUIET = 4;
    private static final String BLACK_ON_WHITE = "\u001b[30;107m";
    private static final String AS_BEFORE = "\u001b[0m";

    private SquareText() {}

    /**
     * {@return the square's lines}
     *
     * @param text what a phone reads from it
     * @param coloured whether the terminal is told black on white; where not, signs stand for what is dark
     */
    public static List<String> lines(String text, boolean coloured) {
        BitMatrix square;
        try {
            square = new QRCodeWriter().encode(text, BarcodeFormat.QR_CODE, 0, 0, Map.of(EncodeHintType.MARGIN, QUIET));
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a square: " + text.length(), e);
        }
        List<String> lines = new ArrayList<>();
        for (int y = 0; y < square.getHeight(); y += 2) {
            StringBuilder line = new StringBuilder();
            for (int x = 0; x < square.getWidth(); x++) {
                boolean above = square.get(x, y);
                boolean below = y + 1 < square.getHeight() && square.get(x, y + 1);
                line.append(above ? (below ? '\u2588' : '\u2580') : (below ? '\u2584' : ' '));
            }
            lines.add(coloured ? BLACK_ON_WHITE + line + AS_BEFORE : line.toString());
        }
        return lines;
    }
}
