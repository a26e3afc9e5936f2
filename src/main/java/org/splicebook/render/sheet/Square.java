package org.splicebook.render.sheet;

import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.util.Map;

/** A code as a QR code (ISO/IEC 18004), drawn as SVG. */
final class Square {
    /** Empty modules that the standard asks for on each side. */
    private static final int QUIET = 4;

    private Square() {}

    static String of(String code) {
        ByteMatrix m;
        try {
            m = Encoder.encode(code, ErrorCorrectionLevel.M, Map.of(EncodeHintType.CHARACTER_SET, "UTF-8"))
                    .getMatrix();
        } catch (WriterException e) {
            throw new IllegalArgumentException("A code of " + code.length() + " letters is too long.", e);
        }
        int side = m.getWidth() + 2 * QUIET;
        StringBuilder svg =
                new StringBuilder("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"96\" height=\"96\" viewBox=\"0 0 "
                        + side + " " + side + "\" role=\"img\"><title>The same code for a phone</title>");
        for (int y = 0; y < m.getHeight(); y++) {
            for (int x = 0; x < m.getWidth(); x++) {
                int from = x;
                while (x < m.getWidth() && m.get(x, y) == 1) {
                    x++;
                }
                if (x > from) {
                    svg.append("<rect x=\"" + (from + QUIET) + "\" y=\"" + (y + QUIET) + "\" width=\"" + (x - from)
                            + "\" height=\"1\" fill=\"currentColor\"/>");
                }
            }
        }
        return svg.append("</svg>").toString();
    }
}
