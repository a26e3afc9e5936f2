package org.splicebook.graph;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/** A record's text, compressed for keeping. */
final class Packed {
    private final byte[] bytes;

    private Packed(byte[] bytes) {
        this.bytes = bytes;
    }

    /** {@return the text, compressed} */
    static Packed of(String text) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(out)) {
            gzip.write(text.getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return new Packed(out.toByteArray());
    }

    /** {@return what was kept; whether it is whole shows when it is unpacked} */
    static Packed kept(byte[] bytes) {
        return new Packed(bytes.clone());
    }

    /** {@return the bytes to keep} */
    byte[] bytes() {
        return bytes.clone();
    }

    /**
     * {@return the text}
     *
     * @throws UncheckedIOException when the bytes are damaged
     */
    String text() {
        try (GZIPInputStream gzip = new GZIPInputStream(new ByteArrayInputStream(bytes))) {
            return new String(gzip.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** {@return the SHA-256 of a text, in hexadecimal} */
    static String digest(String text) {
        try {
            return HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
