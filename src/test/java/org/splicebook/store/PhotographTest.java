package org.splicebook.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import java.util.Random;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;

class PhotographTest {
    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    private static BufferedImage read(byte[] jpeg) throws IOException {
        return ImageIO.read(new ByteArrayInputStream(jpeg));
    }

    private static ProblemKind wrong(byte[] sent) {
        Result<byte[]> result = Photograph.clean(sent);
        assertThat(result.isOk()).isFalse();
        return result.problems().get(0).kind();
    }

    @Test
    void whereItWasTakenIsNotKeptAndItStandsUpright() throws IOException {
        byte[] sent = Pictures.withExif();
        assertThat(text(sent)).contains("Exif", "GPS 10.000");
        byte[] kept = Photograph.clean(sent).get();
        assertThat(text(kept)).doesNotContain("Exif", "GPS");
        BufferedImage image = read(kept);
        assertThat(image.getWidth()).isEqualTo(20);
        assertThat(image.getHeight()).isEqualTo(60);
        assertThat(image.getRGB(10, 5) & 0xFF).as("what was left is on top").isLessThan(80);
    }

    @Test
    void whatIsNotPictureBehindAPictureIsNotKept() throws IOException {
        for (String format : new String[] {"jpg", "png"}) {
            byte[] kept = Photograph.clean(
                            Pictures.both(Pictures.picture(format, 40, 30), "<script>alert(1)</script>PK\3\4"))
                    .get();
            assertThat(text(kept)).doesNotContain("script", "PK\3\4");
            assertThat(read(kept).getWidth()).isEqualTo(40);
            assertThat(Arrays.copyOf(kept, 3)).isEqualTo(new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF});
        }
    }

    @Test
    void largePictureIsMadeSmallerAndASmallOneIsNotMadeLarger() throws IOException {
        assertThat(read(Photograph.clean(Pictures.picture("jpg", 4_800, 1_200)).get())
                        .getWidth())
                .isEqualTo(2_400);
        assertThat(read(Photograph.clean(Pictures.picture("png", 40, 30)).get()).getWidth())
                .isEqualTo(40);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
                "GIF89a<script>alert(1)</script>",
                "<!DOCTYPE html><html></html>",
                "PK\3\4",
                ""
            })
    void whatIsNoPictureIsRefusedWhateverItIsCalled(String sent) {
        assertThat(wrong(sent.getBytes(StandardCharsets.UTF_8))).isEqualTo(ProblemKind.MEDIA_TYPE);
    }

    @Test
    void pictureThatWouldFillTheMemoryIsRefusedByItsHead() {
        assertThat(wrong(Pictures.hugePng(60_000, 60_000))).isEqualTo(ProblemKind.TOO_LARGE);
        assertThat(wrong(Pictures.hugeJpeg(50_000, 50_000))).isEqualTo(ProblemKind.TOO_LARGE);
        assertThat(wrong(Arrays.copyOf(Pictures.picture("jpg", 9, 9), Photograph.MOST_BYTES + 1)))
                .isEqualTo(ProblemKind.TOO_LARGE);
    }

    /** Whatever is broken in a picture, it is refused or drawn anew; nothing else happens. */
    @Test
    void brokenPicturesAreRefusedOrDrawnAnew() {
        Map<String, byte[]> whole =
                Map.of("jpg", Pictures.picture("jpg", 60, 40), "png", Pictures.picture("png", 60, 40));
        for (long seed = 0; seed < 200; seed++) {
            Random random = new Random(seed);
            for (var e : whole.entrySet()) {
                byte[] broken = e.getValue().clone();
                for (int i = 0; i < 1 + random.nextInt(6); i++) {
                    broken[10 + random.nextInt(broken.length - 10)] = (byte) random.nextInt(256);
                }
                byte[] sent = random.nextBoolean() ? broken : Arrays.copyOf(broken, random.nextInt(broken.length));
                Result<byte[]> result = Photograph.clean(sent);
                assertThat(result.isOk() || !result.problems().isEmpty())
                        .as("seed %d, %s", seed, e.getKey())
                        .isTrue();
            }
        }
    }
}
