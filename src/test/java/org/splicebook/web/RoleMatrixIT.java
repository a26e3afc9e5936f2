package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;

/** Every route, by everyone: what the table grants and nothing else. */
class RoleMatrixIT {
    /** Who, with which roles, and up to which level that reaches for the house and for everything (0 is none, 3 a manager). */
    private record Who(String name, List<String> roles, int ofTheHouse, int ofEverything) {}

    private static final List<Who> ALL = List.of(
            new Who("nobody", List.of(), -1, -1),
            new Who("stranger", List.of("manager@" + Closed.OTHER), 0, 0),
            new Who("reads", List.of("reader@" + Served.ID), 1, 0),
            new Who("records", List.of("recorder@" + Served.ID), 2, 0),
            new Who("manages", List.of("manager@" + Served.ID), 3, 0),
            new Who("records-row", List.of("recorder@property:alder-row"), 2, 0),
            new Who("reads-all", List.of("reader"), 1, 1),
            new Who("records-all", List.of("recorder"), 2, 2),
            new Who("manages-all", List.of("manager"), 3, 3));

    @Test
    void eachMayWhatTheTableGrantsAndNoMore() {
        Map<String, Integer> least = table();
        List<String> wrong = new ArrayList<>();
        try (Closed closed = new Closed()) {
            Map<String, String> tokens = new LinkedHashMap<>();
            for (Who who : ALL) {
                if (who.ofTheHouse() >= 0) {
                    closed.add(who.name(), who.roles().toArray(String[]::new));
                    tokens.put(who.name(), closed.token(who.name()));
                }
            }
            for (Route route : AccessTableTest.routes()) {
                for (Who who : ALL) {
                    closed.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "again");
                    String found = sort(closed, route, tokens.get(who.name()));
                    String right = expected(route, who, least.getOrDefault(AccessTable.name(route), 5));
                    if (!found.equals(right)) {
                        wrong.add(AccessTable.name(route) + " by " + who.name() + ": " + found + ", not " + right);
                    }
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    /** The table once more, read by a reader that shares nothing with the program's. */
    private static Map<String, Integer> table() {
        Map<String, Integer> levels = Map.of(
                "nobody:", -1, "known:", 0, "reader:", 1, "recorder:", 2, "manager:", 3, "manager of everything:", 4);
        Map<String, Integer> least = new HashMap<>();
        int level = 5;
        for (String line : Resources.text("access.yaml").lines().toList()) {
            if (levels.containsKey(line)) {
                level = levels.get(line);
            } else if (line.startsWith("  - ")) {
                least.put(line.substring(4), level);
            }
        }
        return least;
    }

    private static String expected(Route route, Who who, int least) {
        boolean isOfAHouse = route.path().contains("{house}");
        boolean isOfAProperty = route.path().contains("{property}");
        boolean isOfRow = who.roles().toString().contains("property:alder-row");
        int ofIt = isOfAHouse || (isOfAProperty && isOfRow) ? who.ofTheHouse() : who.ofEverything();
        int has = who.ofTheHouse() < 0 || least == 0 ? Math.min(who.ofTheHouse(), 0) : ofIt;
        if (has >= least || (least == 4 && who.ofEverything() == 3)) {
            return "let in";
        }
        return has < 0 ? "who are you" : (isOfAHouse || isOfAProperty) && has == 0 ? "no such" : "refused";
    }

    private static String sort(Closed closed, Route route, String token) {
        String path = route.path()
                .replace("{house}", Served.ID)
                .replace("{property}", "alder-row")
                .replaceAll("\\{[a-z]+}", "x");
        boolean isApi = path.startsWith(Api.BASE);
        String method = route.method().toString();
        boolean hasBody = method.equals("POST") || method.equals("PUT");
        List<String> headers = new ArrayList<>();
        if (token != null) {
            headers.addAll(List.of("Authorization", "Bearer " + token));
        }
        if (hasBody) {
            headers.addAll(List.of("Content-Type", isApi ? "application/json" : "application/x-www-form-urlencoded"));
        }
        if (!isApi && hasBody) {
            headers.addAll(List.of("Origin", closed.server.url()));
        }
        // Tries to come in are limited once a route was reached; requests as such before.
        boolean isAccount = path.startsWith("/account");
        boolean isTry = path.startsWith("/join") || path.equals("/login") || (isAccount && token != null);
        HttpResponse<String> answer;
        do {
            answer = closed.send(method, path, hasBody ? (isApi ? "{}" : "") : null, headers.toArray(String[]::new));
        } while (answer.statusCode() == 429 && !isTry);
        String to = answer.headers().firstValue("Location").orElse("");
        if (isTry && !isAccount) {
            return answer.body().contains("It is not known who you are") ? "who are you" : "let in";
        }
        return switch (answer.statusCode()) {
            case 401 -> "who are you";
            case 303 -> to.startsWith("/login?to=") ? "who are you" : "let in";
            case 403 -> answer.body().contains("Your role does not allow") ? "refused" : "let in";
            case 404 -> {
                boolean isHouse = answer.body().contains("There is no house");
                boolean isProperty = answer.body().contains("There is no property");
                yield isHouse || isProperty ? "no such" : "let in";
            }
            default -> "let in";
        };
    }
}
