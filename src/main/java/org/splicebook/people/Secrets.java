package org.splicebook.people;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Locale;

/** Makes secrets and hashes them. What is random enough needs no slow hash: guessing it is hopeless. */
public final class Secrets {
    private static final SecureRandom RANDOM = new SecureRandom();
    private static final int BYTES = 32;
    /** No letter that could be read as another. */
    private static final String TYPED = "23456789abcdefghjkmnpqrstvwxyz";

    private static final int TYPED_LENGTH = 12;

    private Secrets() {}

    /** {@return 256 random bits, for cookies, tokens and links} */
    public static String random() {
        byte[] bytes = new byte[BYTES];
        RANDOM.nextBytes(bytes);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** {@return twelve signs that can be typed, 58 random bits: for a code that lasts minutes and works once} */
    public static String typed() {
        StringBuilder s = new StringBuilder();
        for (int i = 0; i < TYPED_LENGTH; i++) {
            s.append(i > 0 && i % 4 == 0 ? "-" : "").append(TYPED.charAt(RANDOM.nextInt(TYPED.length())));
        }
        return s.toString();
    }

    /** {@return a short name for something that is no secret} */
    static String id() {
        byte[] bytes = new byte[6];
        RANDOM.nextBytes(bytes);
        return HexFormat.of().formatHex(bytes);
    }

    /** {@return the SHA-256 of a secret, in hexadecimal; of a code however it was typed} */
    public static String hash(String secret) {
        String plain = secret.length() <= TYPED_LENGTH + 4
                ? secret.toLowerCase(Locale.ROOT).replaceAll("[\\s-]", "")
                : secret;
        return HexFormat.of().formatHex(digest(plain));
    }

    /** {@return what forms have to carry along beside a cookie: it follows from the cookie, and the cookie does not follow from it} */
    static String csrf(String cookie) {
        return Base64.getUrlEncoder().withoutPadding().encodeToString(digest("form of " + cookie));
    }

    /** {@return whether both are the same, in a time that tells nothing} */
    public static boolean isSame(String a, String b) {
        return MessageDigest.isEqual(a.getBytes(StandardCharsets.UTF_8), b.getBytes(StandardCharsets.UTF_8));
    }

    private static byte[] digest(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
