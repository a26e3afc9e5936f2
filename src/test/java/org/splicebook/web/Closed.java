package org.splicebook.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.splicebook.ask.AnsweringStore;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.people.Grant;
import org.splicebook.people.MemoryPeople;
import org.splicebook.people.People;
import org.splicebook.people.Role;
import org.splicebook.people.StoredEstates;
import org.splicebook.people.TestClock;
import org.splicebook.people.Visitor;
import org.splicebook.property.Properties;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;
import org.splicebook.wiring.Derivation;

/** A real server that people have to sign in at, over stores in memory, with a clock of its own, and ways to send to it. */
final class Closed implements AutoCloseable {
    static final String PASSWORD = "two owls and a ladder";
    static final String OWNER_KEY = "key-of-the-owner-of-this-process";
    /** A house beside that of {@link Served}, of which those who may use the one may know nothing. */
    static final String OTHER = "alder-row-16";

    static final Pattern CSRF = Pattern.compile("name=\"csrf\" value=\"([^\"]+)\"");

    final MemoryStore store = new MemoryStore();
    final MemoryPeople kept = new MemoryPeople();
    final TestClock clock = new TestClock();
    final People people = new People(kept, clock, () -> Visitor.OWNER, () -> {});
    final WebServer server;
    private final HttpClient http = HttpClient.newHttpClient();

    Closed() {
        this(null);
    }

    Closed(Door.Tls tls) {
        keep(Served.ALDER_ROW);
        keep(Served.ALDER_ROW.replaceFirst("house: " + Served.ID, "house: " + OTHER));
        store.properties()
                .put(
                        PropertyFiles.parse("row", Properties.text("alder-row.yaml"))
                                .get()
                                .property(),
                        0,
                        "me",
                        "new")
                .get();
        server = WebServer.start(
                new AnsweringStore(store, Derivation::derive),
                new MemoryFiles(),
                new WebSettings(
                        "127.0.0.1",
                        0,
                        Set.of("wiring.test"),
                        WebSettings.LARGEST_BODY,
                        "9",
                        new Door(true, OWNER_KEY, tls)),
                kept,
                new StoredEstates(store, clock),
                (Clock) clock);
    }

    private void keep(String yaml) {
        store.put(HouseFiles.parse("a", yaml).get(), 0, "me", "new").get();
    }

    /** Adds a user. */
    void add(String name, String... roles) {
        people.addUser(
                        name,
                        PASSWORD,
                        List.of(roles).stream().map(r -> Grant.parse(r).get()).toList())
                .get();
    }

    /** {@return a token of a user} */
    String token(String name) {
        return people.addToken(name, "a test", Role.MANAGER, null).get().secret();
    }

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

    /** Sends a form as a page of this server does; fields are name, value, name, value. */
    HttpResponse<String> form(String path, String cookie, String... fields) {
        StringBuilder body = new StringBuilder();
        for (int i = 0; i < fields.length; i += 2) {
            body.append(body.isEmpty() ? "" : "&")
                    .append(URLEncoder.encode(fields[i], StandardCharsets.UTF_8))
                    .append('=')
                    .append(URLEncoder.encode(fields[i + 1], StandardCharsets.UTF_8));
        }
        return send(
                "POST",
                path,
                body.toString(),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                server.url(),
                "Cookie",
                cookie);
    }

    /** {@return the cookie, name and value, that an answer gives} */
    static String cookie(HttpResponse<String> answer) {
        return answer.headers().firstValue("Set-Cookie").orElse("none=").split(";")[0];
    }

    /** Signs in; {@return the cookie} */
    String signIn(String name) {
        return cookie(form("/login", "a=b", "name", name, "password", PASSWORD, "to", "/"));
    }

    /** {@return what forms of a session have to carry along} */
    String csrf(String cookie) {
        Matcher m = CSRF.matcher(get("/account", "Cookie", cookie).body());
        return m.find() ? m.group(1) : "";
    }

    @Override
    public void close() {
        server.close();
    }
}
