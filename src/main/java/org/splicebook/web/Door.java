package org.splicebook.web;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * Who is let in.
 *
 * @param login whether people have to sign in; where not, everyone who reaches the server is its owner
 * @param ownerKey what commands of the owner of this process show; empty where there are none
 * @param tls the certificate and key to serve HTTPS with; null for HTTP
 */
public record Door(boolean login, String ownerKey, @Nullable Tls tls) {
    /** Nobody has to sign in: for this machine alone. */
    public static final Door OPEN = new Door(false, "", null);

    /**
     * A certificate and its key.
     *
     * @param certificate a PEM file with the certificate, its chain after it
     * @param key a PEM file with the key, in PKCS #8, without a password
     */
    public record Tls(Path certificate, Path key) {}
}
