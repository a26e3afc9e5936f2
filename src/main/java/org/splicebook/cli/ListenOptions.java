package org.splicebook.cli;

import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Where to listen. */
final class ListenOptions {
    @Option(
            names = "--host",
            paramLabel = "ADDRESS",
            description = "The loopback address to listen on; else $SPLICEBOOK_HOST, else 127.0.0.1.")
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

    Program.Listen listen() {
        return new Program.Listen(host, port, knownHosts);
    }
}
