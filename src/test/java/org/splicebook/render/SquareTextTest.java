package org.splicebook.render;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SquareTextTest {
    private static final int MODULE = 8;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "http://192.168.1.20:7391/join/abcd-efgh-jkmn",
                "https://wiring.test/join/0123456789012345678901234567890123456789abc"
            })
    void phoneReadsWhatTheTerminalShows(String link) throws Exception {
        List<String> lines = SquareText.lines(link, false);
        int width = lines.get(0).length();
        int height = lines.size() * 2;
        int[] pixels = new int[width * MODULE * height * MODULE];
        for (int y = 0; y < height * MODULE; y++) {
            for (int x = 0; x < width * MODULE; x++) {
                char sign = lines.get(y / MODULE / 2).charAt(x / MODULE);
                boolean isUpper = y / MODULE % 2 == 0;
                boolean isDark = sign == '\u2588' || (isUpper ? sign == '\u2580' : sign == '\u2584');
                pixels[y * width * MODULE + x] = isDark ? 0 : 0xffffff;
            }
        }
        var image =
                new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width * MODULE, height * MODULE, pixels)));
        assertThat(new QRCodeReader()
                        .decode(image, Map.of(DecodeHintType.PURE_BARCODE, true))
                        .getText())
                .isEqualTo(link);
    }
}
