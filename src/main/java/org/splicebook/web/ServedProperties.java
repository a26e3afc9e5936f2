package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Property;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredProperty;

/** The properties of a running server, reached over its API. */
final class ServedProperties implements PropertyStore {
    private final Client client;

    ServedProperties(Client client) {
        this.client = client;
    }

    @Override
    public List<Revision> list() {
        return read(client.get("properties").json());
    }

    @Override
    public Optional<StoredProperty> find(String id) {
        return get(id, Client.path("properties", id));
    }

    @Override
    public Optional<StoredProperty> findRevision(String id, long revision) {
        return get(id, Client.path("properties", id) + "?revision=" + revision);
    }

    private Optional<StoredProperty> get(String id, String path) {
        Client.Answer answer = client.get(path);
        if (answer.status() == Statuses.of(ProblemKind.NOT_FOUND)) {
            return Optional.empty();
        }
        Property property = PropertyFiles.parse("property", answer.body()).get().property();
        return revisions(id).stream()
                .filter(r -> Tags.of(r).equals(answer.tag()))
                .findFirst()
                .map(r -> new StoredProperty(property, r));
    }

    @Override
    public List<Revision> revisions(String id) {
        Client.Answer answer = client.get(Client.path("properties", id, "revisions"));
        return answer.status() == Statuses.of(ProblemKind.NOT_FOUND) ? List.of() : read(answer.json());
    }

    @Override
    public Result<Revision> put(Property property, long expected, String who, String why) {
        String path = Client.path("properties", property.id()) + Client.query(Map.of("who", who, "why", why));
        String body = PropertyFiles.write(property);
        String tag = revisions(property.id()).stream()
                .filter(r -> r.number() == expected)
                .findFirst()
                .map(Tags::of)
                .orElse("\"" + expected + "-unknown\"");
        return client.result(() -> expected == 0
                        ? client.send("PUT", path, "application/yaml", body, "If-None-Match", "*")
                        : client.send("PUT", path, "application/yaml", body, "If-Match", tag))
                .map(a -> RevisionJson.read(a.json()));
    }

    @Override
    public Result<Revision> restore(List<StoredProperty> past) {
        return Result.failed(notOverTheServer());
    }

    static Problem notOverTheServer() {
        return Failures.problem(
                ProblemKind.REFUSED,
                "A server has this store; houses are not restored through it one by one.",
                "Send it whole: the command restore, or the page /archive.");
    }

    private static List<Revision> read(JsonNode list) {
        List<Revision> all = new ArrayList<>();
        list.forEach(r -> all.add(RevisionJson.read(r)));
        return all;
    }
}
