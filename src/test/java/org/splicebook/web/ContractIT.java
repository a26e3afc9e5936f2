package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.loadflow.FlowReport;
import org.splicebook.people.MemoryPeople;
import org.splicebook.people.People;
import org.splicebook.people.Visitors;
import org.splicebook.render.Json;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;

class ContractIT {
    private static final JsonNode CONTRACT = StoreApi.contract();
    private static final Pattern IN_PATH = Pattern.compile("[{]([^}]+)}");
    private static Served served;

    @BeforeAll
    static void start() {
        served = new Served();
    }

    @AfterAll
    static void stop() {
        served.close();
    }

    @Test
    void routesAndContractNameTheSameOperations() {
        Set<String> routes = Api.routes(
                        new MemoryStore(),
                        new MemoryFiles(),
                        new People(new MemoryPeople(), Clock.systemUTC(), Visitors::now, () -> {}),
                        new Watch(new MemoryStore()),
                        new Searches(),
                        WebSettings.onPort(0, "9"))
                .stream()
                .map(r -> r.method() + " " + r.path().substring(Api.BASE.length()))
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> contract = new TreeSet<>();
        CONTRACT.path("paths")
                .properties()
                .forEach(p -> p.getValue()
                        .fieldNames()
                        .forEachRemaining(m -> contract.add(m.toUpperCase(Locale.ROOT) + " " + p.getKey())));
        assertThat(contract).isEqualTo(routes);
    }

    @Test
    void everyParameterInAPathIsDescribed() {
        CONTRACT.path("paths")
                .properties()
                .forEach(p -> p.getValue().forEach(operation -> {
                    Set<String> described = new TreeSet<>();
                    operation.path("parameters").forEach(q -> {
                        if (resolved(q).path("in").asText().equals("path")) {
                            described.add("{" + resolved(q).path("name").asText() + "}");
                        }
                    });
                    List<String> named = IN_PATH.matcher(p.getKey())
                            .results()
                            .map(MatchResult::group)
                            .toList();
                    assertThat(described).as(p.getKey()).containsExactlyInAnyOrderElementsOf(named);
                }));
    }

    @Test
    void answersKeepToTheirSchemas() throws InterruptedException {
        String[] json = {"Content-Type", "application/json"};
        served.store.put(HouseFiles.parse("a", Served.ALDER_ROW).get(), 0, "me", "new");
        String tag = served.get(Served.HOUSE).headers().firstValue("ETag").orElseThrow();
        String[] change = {"Content-Type", "application/yaml", "If-Match", tag};
        checked("/houses/{house}", "put", served.send("PUT", Served.HOUSE, Served.ALDER_ROW, change));
        String findings = Served.HOUSE + "/findings";
        checked("/houses/{house}/findings", "get", served.get(findings + "?by=place"));
        checked("/houses/{house}/findings/compared", "get", served.get(findings + "/compared?with=1"));
        String key = Json.read(served.get(findings).body())
                .path("findings")
                .get(0)
                .path("key")
                .asText();
        checked("/houses/{house}/findings/{rule}/{subject}", "get", served.get(findings + "/" + key));
        String acceptance = "/houses/{house}/findings/{rule}/{subject}/acceptance";
        String itsAcceptance = findings + "/" + key + "/acceptance";
        checked(acceptance, "put", served.send("PUT", itsAcceptance, "{\"reason\": \"Known.\"}", json));
        checked("/houses/{house}/findings", "get", served.get(findings));
        checked(acceptance, "delete", served.send("DELETE", itsAcceptance, ""));
        checked("/houses", "get", served.get("/api/v1/houses"));
        checked("/houses/{house}", "get", served.get(Served.HOUSE, "Accept", "application/json"));
        checked("/houses/{house}/revisions", "get", served.get(Served.HOUSE + "/revisions"));
        checked("/houses/{house}/sightings", "get", served.get(Served.HOUSE + "/sightings"));
        checked("/houses/{house}/sightings", "post", served.send("POST", Served.HOUSE + "/sightings", "[]", json));
        checked("/questions", "get", served.get("/api/v1/questions"));
        checked("/questions/{question}", "get", served.get("/api/v1/questions/all-houses"));
        checked(
                "/houses/{house}/questions/{question}",
                "get",
                served.get(Served.HOUSE + "/questions/goes-off?breaker=main.6"));
        checked("/houses/{house}/flow", "post", served.send("POST", Served.HOUSE + "/flow", "{}", json));
        checked(
                "/houses/{house}/flow/netlist",
                "post",
                served.send("POST", Served.HOUSE + "/flow/netlist", "{}", json));
        checked(
                "/houses/{house}/plan",
                "post",
                served.send("POST", Served.HOUSE + "/plan", "{\"panel\": \"100-20\"}", json));
        checked("/houses/{house}/flow/reports", "get", served.get(Served.HOUSE + "/flow/reports"));
        for (FlowReport r : FlowReport.values()) {
            String body = "{\"about\": \"main.4\", \"readings\": [\"bench-1.top.hot bench-1.top.neutral 119\"]}";
            String path = Served.HOUSE + "/flow/reports/" + r.word();
            checked("/houses/{house}/flow/reports/{report}", "post", served.send("POST", path, body, json));
        }
        checked("/ready", "get", served.get("/api/v1/ready"));
        checked("/me", "get", served.get("/api/v1/me"));
        String user = "{\"password\": \"two owls and a ladder\", \"roles\": [\"reader\"]}";
        checked("/users/{user}", "put", served.send("PUT", "/api/v1/users/rowan", user, json));
        checked("/users/{user}", "put", served.send("PUT", "/api/v1/users/rowan", user, json));
        checked("/users", "get", served.get("/api/v1/users"));
        String token = "{\"user\": \"rowan\", \"label\": \"a script\", \"lasting\": \"P30D\"}";
        var made = served.send("POST", "/api/v1/tokens", token, json);
        checked("/tokens", "post", made);
        checked("/tokens", "get", served.get("/api/v1/tokens"));
        String id = Json.read(made.body()).path("id").asText();
        checked("/tokens/{token}", "delete", served.send("DELETE", "/api/v1/tokens/" + id, ""));
        String link = "{\"label\": \"a phone\", \"role\": \"recorder@" + Served.ID
                + "\", \"lasting\": \"PT15M\", \"once\": true}";
        var invited = served.send("POST", "/api/v1/invitations", link, json);
        checked("/invitations", "post", invited);
        checked("/invitations", "get", served.get("/api/v1/invitations"));
        String which = Json.read(invited.body()).path("id").asText();
        checked("/invitations/{invitation}", "delete", served.send("DELETE", "/api/v1/invitations/" + which, ""));
        checked("/users/{user}", "delete", served.send("DELETE", "/api/v1/users/rowan", ""));
        checked("/audit", "get", served.get("/api/v1/audit?most=5"));
        String drafts = Served.HOUSE + "/drafts";
        String moves = "{\"draft\": \"off\", \"moves\": [{\"cap\": \"K1.black\", \"in\": \"bench\"}]}";
        String one = "/houses/{house}/drafts/{draft}";
        checked(
                one,
                "put",
                served.send("PUT", drafts + "/off", moves, "Content-Type", "application/json", "If-None-Match", "*"));
        checked(one, "get", served.get(drafts + "/off"));
        checked("/houses/{house}/drafts", "get", served.get(drafts));
        checked(one + "/findings", "get", served.get(drafts + "/off/findings"));
        checked("/houses/{house}/drafts/findings", "post", served.send("POST", drafts + "/findings", moves, json));
        checked(one + "/flow", "post", served.send("POST", drafts + "/off/flow", "{}", json));
        String loose = "{\"readings\": [\"bench-1.top.hot bench-1.top.neutral 119\"], \"about\": \"main.4\"}";
        checked(
                one + "/flow/reports/{report}",
                "post",
                served.send("POST", drafts + "/off/flow/reports/open-neutral", loose, json));
        String searches = Served.HOUSE + "/searches";
        var begun = served.send("POST", searches, "{\"place\": {\"points\": [\"bench-1.top\"]}}", json);
        checked("/houses/{house}/searches", "post", begun);
        String search = begun.headers().firstValue("Location").orElseThrow();
        for (int i = 0; i < 600 && !served.get(search).body().contains("\"answer\""); i++) {
            Thread.sleep(50);
        }
        checked("/houses/{house}/searches/{search}", "get", served.get(search));
        checked("/houses/{house}/searches", "get", served.get(searches));
        checked(
                "/houses/{house}/searches/{search}/drafts",
                "post",
                served.send("POST", search + "/drafts", "{\"proposal\": 1, \"name\": \"kept\"}", json));
        checked("/houses/{house}/searches/{search}", "delete", served.send("DELETE", search, null));
        checked(one + "/told", "get", served.get(drafts + "/off/told"));
        checked(one + "/drawings/{kind}", "get", served.get(drafts + "/off/drawings/box?of=none"));
        checked(one + "/questions/{question}", "get", served.get(drafts + "/off/questions/goes-off?breaker=main.6"));
        checked(
                "/houses/{house}/drafts/questions/{question}",
                "post",
                served.send("POST", drafts + "/questions/goes-off?breaker=main.6", moves, json));
        String[] withTag = {"Content-Type", "application/json", "If-Match", "\"draft-1\""};
        checked(one + "/carried-over", "post", served.send("POST", drafts + "/off/carried-over", "{}", withTag));
        withTag[3] = "\"draft-2\"";
        checked(one + "/entered", "post", served.send("POST", drafts + "/off/entered", "{}", withTag));
        checked(one, "delete", served.send("DELETE", drafts + "/off", null, "If-Match", "\"draft-3\""));
        checked("/health", "get", served.get("/api/v1/health"));
        checked("/verification", "post", served.send("POST", "/api/v1/verification", "{\"rebuild\": false}", json));
        checked("/house-file.schema.json", "get", served.get("/api/v1/house-file.schema.json"));
        checked("/openapi.json", "get", served.get("/api/v1/openapi.json"));
    }

    @Test
    void failuresKeepToTheProblemSchema() {
        String[] fresh = {"Content-Type", "application/yaml", "If-None-Match", "*"};
        checked("/houses/{house}", "get", served.get("/api/v1/houses/none"));
        checked("/houses/{house}", "put", served.send("PUT", "/api/v1/houses/x", "splicebook: 1\nwibble: 2", fresh));
        checked("/houses/{house}", "delete", served.send("DELETE", "/api/v1/houses/none", null));
        checked("/questions/{question}", "get", served.get("/api/v1/questions/none"));
    }

    private static void checked(String path, String method, HttpResponse<String> answer) {
        JsonNode responses = CONTRACT.path("paths").path(path).path(method).path("responses");
        String status = responses.has("" + answer.statusCode()) ? "" + answer.statusCode() : "default";
        String type = answer.headers().firstValue("Content-Type").orElse("").split(";")[0];
        JsonNode content = resolved(responses.path(status)).path("content").path(type);
        assertThat(content.isMissingNode())
                .as("%s %s answers %d as '%s'", method, path, answer.statusCode(), type)
                .isFalse();
        ObjectNode schema = Json.object();
        schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
        schema.set("allOf", Json.object().arrayNode().add(content.path("schema")));
        schema.set("components", CONTRACT.path("components"));
        var validator = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(schema);
        boolean isText = type.equals("text/plain");
        assertThat(validator.validate(isText ? Json.tree(answer.body()) : Json.read(answer.body())))
                .as("%s %s: %s", method, path, answer.body())
                .isEmpty();
    }

    private static JsonNode resolved(JsonNode node) {
        String ref = node.path("$ref").asText();
        return ref.isEmpty() ? node : CONTRACT.at(ref.substring(1));
    }
}
