package org.splicebook.cli;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Where to listen. */
final class ListenOptions {
    @Option(
            names = "--host",
            paramLabel = "ADDRESS",
            description =
                    "The address to listen on; else $SPLICEBOOK_HOST, else 127.0.0.1. Where others reach it, people have to sign in.")
    private @Nullable String host;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            description = "The port, 0 for any; else $SPLICEBOOK_PORT, else 7391.")
    private @Nullable Integer port;

    @Option(
            names = "--known-host",
            paramLabel = "NAME[:PORT]",
            description = "A further name that requests may call this server by.")
    private List<String> knownHosts = List.of();

    @Option(
            names = "--login",
            description = "Have people sign in even where only this machine reaches the server: for behind a proxy.")
    private boolean login;

    @Option(
            names = "--tls-certificate",
            paramLabel = "FILE",
            description = "Serve HTTPS with this certificate and its chain, in PEM; else $SPLICEBOOK_TLS_CERTIFICATE.")
    private @Nullable Path certificate;

    @Option(
            names = "--tls-key",
            paramLabel = "FILE",
            description = "Its key, in PEM (PKCS #8, without a password); else $SPLICEBOOK_TLS_KEY.")
    private @Nullable Path key;

    Program.Listen listen() {
        return new Program.Listen(host, port, knownHosts, login, certificate, key);
    }
}
