package org.splicebook.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.splicebook.cli.Program;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.web.Door;
import org.splicebook.web.WebSettings;

/**
 * What the command line, then the environment, then the defaults say.
 *
 * @param environment the environment's variables
 * @param home the person's home folder
 */
record Configuration(Map<String, String> environment, Path home) {
    static final String DATA = "SPLICEBOOK_DATA";
    static final String NEO4J = "SPLICEBOOK_NEO4J";
    static final String USER = "SPLICEBOOK_NEO4J_USER";
    static final String PASSWORD_FILE = "SPLICEBOOK_NEO4J_PASSWORD_FILE";
    static final String HOST = "SPLICEBOOK_HOST";
    static final String PORT = "SPLICEBOOK_PORT";
    static final String KNOWN_HOSTS = "SPLICEBOOK_KNOWN_HOSTS";

    static final String LOGIN = "SPLICEBOOK_LOGIN";
    static final String TLS_CERTIFICATE = "SPLICEBOOK_TLS_CERTIFICATE";
    static final String TLS_KEY = "SPLICEBOOK_TLS_KEY";

    /** Every variable that is read here. */
    static final Set<String> VARIABLES =
            Set.of(DATA, NEO4J, USER, PASSWORD_FILE, HOST, PORT, KNOWN_HOSTS, LOGIN, TLS_CERTIFICATE, TLS_KEY);

    private static final int DEFAULT_PORT = 7391;

    /** A Neo4j server and how to get in. */
    record Neo4jServer(String uri, String user, String password) {}

    Path data(Program.StoreChoice choice) {
        if (choice.data() != null) {
            return choice.data();
        }
        return said(DATA).map(Path::of).orElse(home.resolve(".local/share/splicebook"));
    }

    Optional<Neo4jServer> server(Program.StoreChoice choice) {
        Optional<String> uri = Optional.ofNullable(choice.neo4j()).or(() -> said(NEO4J));
        return uri.map(u -> new Neo4jServer(u, user(choice), password(choice)));
    }

    private String user(Program.StoreChoice choice) {
        return Optional.ofNullable(choice.user()).or(() -> said(USER)).orElse("neo4j");
    }

    private String password(Program.StoreChoice choice) {
        Path file = Optional.ofNullable(choice.passwordFile())
                .or(() -> said(PASSWORD_FILE).map(Path::of))
                .orElseThrow(() -> failure(
                        ProblemKind.MISSING,
                        "",
                        "The password of the Neo4j server is not said.",
                        "Name a file that holds it: --password-file or " + PASSWORD_FILE + "."));
        try {
            String text = Files.readString(file, StandardCharsets.UTF_8).strip();
            // The database's own image takes user/password from one file; so that one file serves both.
            String prefix = user(choice) + "/";
            return text.startsWith(prefix) ? text.substring(prefix.length()) : text;
        } catch (IOException e) {
            throw failure(
                    ProblemKind.BAD_PATH,
                    file.toString(),
                    "The password cannot be read from here.",
                    "Name a file that can be read.");
        }
    }

    /** {@return where and for whom to listen}; ownerKey lets the commands of this process' owner in. */
    WebSettings web(Program.Listen listen, String version, String ownerKey) {
        Set<String> known = new HashSet<>(listen.knownHosts());
        said(KNOWN_HOSTS).ifPresent(s -> known.addAll(Arrays.asList(s.trim().split("[ ,]+"))));
        String host = Optional.ofNullable(listen.host()).or(() -> said(HOST)).orElse("127.0.0.1");
        // A name that others know the server by means that others reach it, be it over a proxy.
        boolean login = listen.login() || said(LOGIN).isPresent() || !known.isEmpty() || !WebSettings.isLoopback(host);
        Door door = new Door(login, ownerKey, tls(listen));
        return new WebSettings(host, port(listen.port()), known, WebSettings.LARGEST_BODY, version, door);
    }

    private Door.@Nullable Tls tls(Program.Listen listen) {
        Optional<Path> certificate = Optional.ofNullable(listen.certificate())
                .or(() -> said(TLS_CERTIFICATE).map(Path::of));
        Optional<Path> key =
                Optional.ofNullable(listen.key()).or(() -> said(TLS_KEY).map(Path::of));
        if (certificate.isPresent() != key.isPresent()) {
            throw failure(
                    ProblemKind.MISSING,
                    "",
                    "HTTPS needs a certificate and its key, and only one is said.",
                    "Say --tls-certificate and --tls-key.");
        }
        return certificate.isEmpty() ? null : new Door.Tls(certificate.get(), key.orElseThrow());
    }

    private int port(@Nullable Integer said) {
        String port = said == null ? said(PORT).orElse(String.valueOf(DEFAULT_PORT)) : said.toString();
        if (port.matches("[0-9]{1,5}") && Integer.parseInt(port) <= 65535) {
            return Integer.parseInt(port);
        }
        throw failure(ProblemKind.BAD_VALUE, "", "'" + port + "' is not a port.", "Give a number from 0 to 65535.");
    }

    private Optional<String> said(String variable) {
        return Optional.ofNullable(environment.get(variable)).filter(s -> !s.isBlank());
    }

    private static ProblemException failure(ProblemKind kind, String file, String message, String cure) {
        Where where = file.isEmpty() ? Where.NOWHERE : new Where(file, 0, 0, "");
        return new ProblemException(Problem.error(kind, where, message, cure));
    }
}
