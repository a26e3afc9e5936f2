package org.splicebook.web;

import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;

/** Requests of any kind, sent to a real server over a store in memory; an answer of 500 and more is a fault. */
public final class WebFuzz {
    private static final int MOST_MILLIS = 55_000;
    private static final House HOUSE = HouseFiles.parse("a", Served.ALDER_ROW).get();
    private static final Served SERVED = served();

    private WebFuzz() {}

    private static Served served() {
        Served served = Served.answering();
        served.store.put(HOUSE, 0, "Rowan", "new").get();
        return served;
    }

    /** {@return a request for every route} */
    public static List<byte[]> seeds() {
        List<byte[]> all = new ArrayList<>();
        for (Route r : AccessTableTest.routes()) {
            String method = r.method().toString();
            boolean isWrite = !method.equals("GET");
            boolean isApi = r.path().startsWith(Api.BASE);
            String path = r.path()
                    .replace("{house}", Served.ID)
                    .replace("{question}", "what-feeds")
                    .replace("{kind}", r.path().contains("lists") ? "outlets" : "box")
                    .replace("{form}", "csv")
                    .replaceAll("\\{[a-z]+}", "gang");
            String body = !isWrite ? "" : isApi ? "{\"moves\": [], \"at\": \"gang\"}" : "at=gang&name=a&text=b&step=1";
            all.add((method + " " + path + "?at=gang&q=a&expected=1&subject=gang\n"
                            + (isWrite && isApi ? "Content-Type: application/json\nIf-Match: \"1\"\n" : "")
                            + "\n" + body)
                    .getBytes(StandardCharsets.ISO_8859_1));
        }
        all.add(("PUT " + Served.HOUSE + "\nContent-Type: application/yaml\nIf-Match: \"1\"\n\n" + Served.ALDER_ROW)
                .getBytes(StandardCharsets.UTF_8));
        all.add("=gang\n\n".getBytes(StandardCharsets.ISO_8859_1));
        return all;
    }

    /** Sends a request: method and path, headers line by line, an empty line, the body. */
    public static void send(byte[] input) throws IOException {
        String text = new String(input, StandardCharsets.ISO_8859_1);
        int end = text.indexOf("\n\n");
        String head = end < 0 ? text : text.substring(0, end);
        String body = end < 0 ? "" : text.substring(end + 2);
        String[] lines = head.split("\n");
        StringBuilder request = new StringBuilder(lines.length == 0 ? "GET /" : lines[0])
                .append(" HTTP/1.1\r\nHost: 127.0.0.1:")
                .append(SERVED.server.port())
                .append("\r\nConnection: close\r\n");
        for (int i = 1; i < lines.length; i++) {
            request.append(lines[i]).append("\r\n");
        }
        if (lines[0].startsWith("POST /") && !lines[0].startsWith("POST /api")) {
            request.append("Origin: ").append(SERVED.server.url()).append("\r\n");
            if (!head.toLowerCase(Locale.ROOT).contains("content-type")) {
                request.append("Content-Type: application/x-www-form-urlencoded\r\n");
            }
        }
        request.append("Content-Length: ").append(body.length()).append("\r\n\r\n");
        int status = status((request + body).getBytes(StandardCharsets.ISO_8859_1));
        // A line of two words is a request without a version, which 505 answers rightly.
        if (status >= 500 && status != 505) {
            throw new AssertionError(status + " for " + lines[0]);
        }
        if (!text.startsWith("GET ")) {
            SERVED.store
                    .findHouse(Served.ID)
                    .ifPresentOrElse(
                            h -> {
                                if (!h.house().equals(HOUSE)) {
                                    put(h.revision().number());
                                }
                            },
                            () -> put(SERVED.store.revisions(Served.ID).get(0).number()));
        }
    }

    private static void put(long expected) {
        var unused = SERVED.store.put(HOUSE, expected, "Rowan", "again");
    }

    private static int status(byte[] request) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", SERVED.server.port())) {
            socket.setSoTimeout(MOST_MILLIS);
            OutputStream out = socket.getOutputStream();
            out.write(request);
            out.flush();
            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
            return answer.matches("(?s)HTTP/1\\.1 [1-5][0-9]{2}.*") ? Integer.parseInt(answer.substring(9, 12)) : 0;
        } catch (SocketTimeoutException e) {
            throw new AssertionError("no answer within " + MOST_MILLIS + " ms", e);
        } catch (SocketException e) {
            // Closed on what is no request.
            return 0;
        }
    }
}
