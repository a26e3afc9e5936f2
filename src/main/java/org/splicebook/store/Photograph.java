package org.splicebook.store;

import java.awt.Dimension;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import net.coobird.thumbnailator.Thumbnails;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/**
 * Makes a picture that somebody sent into one that may be kept: what it is is judged by its content, and it is drawn anew, so that nothing that
 * came along with it (where it was taken, by which telephone, or a script behind its end) is kept.
 */
public final class Photograph {
    /** Most bytes that are looked at. */
    public static final int MOST_BYTES = 15_000_000;

    private static final long MOST_PIXELS = 64_000_000;
    private static final int LONGEST_EDGE = 2_400;
    private static final double QUALITY = 0.82;
    private static final byte[] JPEG = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF};
    private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

    private Photograph() {}

    /**
     * {@return the picture as JPEG, upright, at most 2,400 pixels long, with nothing but the picture in it; or what is wrong with what was sent}
     *
     * @param sent a JPEG or PNG of at most {@link #MOST_BYTES} bytes and 64 million pixels
     */
    public static Result<byte[]> clean(byte[] sent) {
        if (sent.length > MOST_BYTES) {
            return failed(
                    ProblemKind.TOO_LARGE,
                    "The picture has " + sent.length + " bytes.",
                    "Send one of at most " + MOST_BYTES + ".");
        }
        String format = format(sent);
        if (format == null) {
            return failed(
                    ProblemKind.MEDIA_TYPE,
                    "What was sent is neither a JPEG nor a PNG picture, whatever its name says.",
                    "Set the camera to JPEG, or save the picture as one.");
        }
        // One at a time, so that a few large ones together do not take all the memory.
        synchronized (Photograph.class) {
            return drawn(sent, format);
        }
    }

    private static Result<byte[]> drawn(byte[] sent, String format) {
        try {
            Dimension size = size(sent, format);
            if ((long) size.width * size.height > MOST_PIXELS) {
                return failed(
                        ProblemKind.TOO_LARGE,
                        "The picture is " + size.width + " by " + size.height + " pixels.",
                        "Send one of at most 64 million pixels.");
            }
            int longest = Math.max(size.width, size.height);
            // Held in memory, the stream skips what says which side is up where that stands first, as cameras put it.
            ImageIO.setUseCache(true);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            Thumbnails.of(new ByteArrayInputStream(sent))
                    .scale(Math.min(1, (double) LONGEST_EDGE / longest))
                    .imageType(BufferedImage.TYPE_INT_RGB)
                    .outputFormat("jpg")
                    .outputQuality(QUALITY)
                    .toOutputStream(out);
            return Result.ok(out.toByteArray());
        } catch (IOException | RuntimeException e) {
            // Decoders answer broken pictures with exceptions of many kinds.
            return failed(
                    ProblemKind.SYNTAX,
                    "The picture is broken, or of a kind that is not read here.",
                    "Open it elsewhere, save it as JPEG, and send that.");
        }
    }

    /**
     * {@return a photograph that was kept, made smaller where it is larger; empty where it is no picture}
     *
     * @param kept a JPEG, as {@link #clean} makes it
     * @param longest its longer edge, in pixels
     */
    public static Optional<byte[]> smaller(byte[] kept, int longest) {
        try {
            Dimension size = size(kept, "jpeg");
            int longer = Math.max(size.width, size.height);
            if (longer <= longest) {
                return Optional.of(kept);
            }
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            synchronized (Photograph.class) {
                Thumbnails.of(new ByteArrayInputStream(kept))
                        .scale((double) longest / longer)
                        .imageType(BufferedImage.TYPE_INT_RGB)
                        .outputFormat("jpg")
                        .outputQuality(QUALITY)
                        .toOutputStream(out);
            }
            return Optional.of(out.toByteArray());
        } catch (IOException | RuntimeException e) {
            // Decoders answer broken pictures with exceptions of many kinds.
            return Optional.empty();
        }
    }

    /** {@return how wide and high a JPEG is, in pixels} */
    public static Dimension size(byte[] jpeg) {
        try {
            return size(jpeg, "jpeg");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Dimension size(byte[] picture, String format) throws IOException {
        ImageReader reader = ImageIO.getImageReadersByFormatName(format).next();
        try (ImageInputStream in = ImageIO.createImageInputStream(new ByteArrayInputStream(picture))) {
            reader.setInput(in, true, true);
            return new Dimension(reader.getWidth(0), reader.getHeight(0));
        } finally {
            reader.dispose();
        }
    }

    private static @Nullable String format(byte[] sent) {
        return begins(sent, JPEG) ? "jpeg" : begins(sent, PNG) ? "png" : null;
    }

    private static boolean begins(byte[] sent, byte[] with) {
        return sent.length > with.length && Arrays.equals(Arrays.copyOf(sent, with.length), with);
    }

    private static Result<byte[]> failed(ProblemKind kind, String found, String right) {
        return Result.failed(Problem.error(kind, Where.field("photo"), found, right));
    }
}
