package org.splicebook.store;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;

/** Pictures for tests, and what somebody may send in their place. */
public final class Pictures {
    private Pictures() {}

    /** {@return a picture, dark at its left and light at its right} */
    public static byte[] picture(String format, int width, int height) {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setColor(Color.LIGHT_GRAY);
        g.fillRect(0, 0, width, height);
        g.setColor(Color.BLACK);
        g.fillRect(0, 0, width / 2, height);
        g.dispose();
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, format, out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    /** {@return a small JPEG whose head claims that size, at most 65,535 each way} */
    public static byte[] hugeJpeg(int width, int height) {
        byte[] jpeg = picture("jpg", 40, 30);
        for (int at = 2; at + 9 < jpeg.length; ) {
            int marker = jpeg[at + 1] & 0xFF;
            if (marker == 0xC0 || marker == 0xC2) {
                ByteBuffer.wrap(jpeg).putShort(at + 5, (short) height).putShort(at + 7, (short) width);
                return jpeg;
            }
            at += 2 + (((jpeg[at + 2] & 0xFF) << 8) | (jpeg[at + 3] & 0xFF));
        }
        throw new IllegalStateException("a picture without a frame");
    }

    /** {@return a JPEG of 60 by 20 that says it was taken with the camera on its side, and where} */
    public static byte[] withExif() {
        byte[] place = "GPS 10.000 N 20.000 E".getBytes(StandardCharsets.US_ASCII);
        ByteBuffer tiff = ByteBuffer.allocate(26 + place.length);
        tiff.put(new byte[] {'M', 'M', 0, 42}).putInt(8).putShort((short) 1);
        // Orientation 6: to be turned a quarter to the right.
        tiff.putShort((short) 0x0112)
                .putShort((short) 3)
                .putInt(1)
                .putShort((short) 6)
                .putShort((short) 0);
        tiff.putInt(0).put(place);
        byte[] head = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);
        byte[] jpeg = picture("jpg", 60, 20);
        int length = 2 + head.length + tiff.capacity();
        ByteBuffer all = ByteBuffer.allocate(jpeg.length + 2 + length);
        all.put(jpeg, 0, 2).put((byte) 0xFF).put((byte) 0xE1).putShort((short) length);
        all.put(head).put(tiff.array()).put(jpeg, 2, jpeg.length - 2);
        return all.array();
    }

    /** {@return the head of a PNG that says it has so many pixels, and nothing behind it} */
    public static byte[] hugePng(int width, int height) {
        ByteBuffer header = ByteBuffer.allocate(17);
        header.put("IHDR".getBytes(StandardCharsets.US_ASCII)).putInt(width).putInt(height);
        header.put(new byte[] {8, 2, 0, 0, 0});
        CRC32 crc = new CRC32();
        crc.update(header.array());
        ByteBuffer all = ByteBuffer.allocate(8 + 4 + 17 + 4);
        all.put(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}).putInt(13);
        all.put(header.array()).putInt((int) crc.getValue());
        return all.array();
    }

    /** {@return the two behind one another} */
    public static byte[] both(byte[] first, String then) {
        byte[] second = then.getBytes(StandardCharsets.UTF_8);
        return ByteBuffer.allocate(first.length + second.length)
                .put(first)
                .put(second)
                .array();
    }
}
