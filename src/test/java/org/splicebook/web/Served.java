package org.splicebook.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.UnaryOperator;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.people.Estates;
import org.splicebook.people.MemoryPeople;
import org.splicebook.store.HouseStore;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.wiring.Derivation;

/** A real server on a port of the system's choice, over a store in memory, and ways to send to it. */
final class Served implements AutoCloseable {
    static final String ALDER_ROW = resource("/org/splicebook/housefile/alder-row.yaml");
    static final String ID = "alder-row-14b";
    static final String HOUSE = "/api/v1/houses/" + ID;

    private static final String FORM = "application/x-www-form-urlencoded";

    final MemoryStore store;
    final MemoryPeople people;
    final MemoryFiles files = new MemoryFiles();
    final WebServer server;
    private final HttpClient http = HttpClient.newHttpClient();

    Served() {
        this(new MemoryStore(), s -> s);
    }

    private Served(MemoryStore store, UnaryOperator<HouseStore> before) {
        this.store = store;
        this.people = new MemoryPeople();
        this.server = WebServer.start(
                before.apply(store),
                files,
                new WebSettings("127.0.0.1", 0, Set.of("wiring.test"), WebSettings.LARGEST_BODY, "9", Door.OPEN),
                people,
                Estates.NONE);
    }

    /** {@return one that answers computed questions too} */
    static Served answering() {
        return new Served(new MemoryStore(), s -> new AnsweringStore(s, Derivation::derive));
    }

    /** Sends a request; headers are name, value, name, value. */
    HttpResponse<String> send(String method, String path, String body, String... headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(server.url() + path))
                .method(
                        method,
                        body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body));
        for (int i = 0; i < headers.length; i += 2) {
            request.header(headers[i], headers[i + 1]);
        }
        try {
            return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    HttpResponse<String> get(String path, String... headers) {
        return send("GET", path, null, headers);
    }

    /** Sends a form as a page of this server would; fields are name, value, name, value. */
    HttpResponse<String> post(String path, String... fields) {
        return postFrom(server.url(), path, fields);
    }

    /** The same from a page of elsewhere; from a program that names no origin where that is empty. */
    HttpResponse<String> postFrom(String origin, String path, String... fields) {
        StringJoiner body = new StringJoiner("&");
        for (int i = 0; i < fields.length; i += 2) {
            body.add(fields[i] + "=" + URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return origin.isEmpty()
                ? send("POST", path, body.toString(), "Content-Type", FORM)
                : send("POST", path, body.toString(), "Content-Type", FORM, "Origin", origin);
    }

    /** {@return what lies there, byte by byte} */
    byte[] bytes(String path) {
        try {
            return http.send(
                            HttpRequest.newBuilder(URI.create(server.url() + path))
                                    .build(),
                            HttpResponse.BodyHandlers.ofByteArray())
                    .body();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    HttpResponse<String> putNew(String yaml) {
        return send("PUT", HOUSE, yaml, "Content-Type", "application/yaml", "If-None-Match", "*");
    }

    /** Sends bytes as they are, for what a well-behaved client would not send, and reads until the server closes. */
    String raw(String request) {
        try (Socket socket = new Socket("127.0.0.1", server.port())) {
            socket.setSoTimeout(10_000);
            socket.getOutputStream().write(request.getBytes(StandardCharsets.UTF_8));
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static String resource(String name) {
        try (InputStream in = Served.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public void close() {
        server.close();
    }
}
