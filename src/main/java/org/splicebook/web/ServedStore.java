package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.net.URI;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.render.Json;
import org.splicebook.render.ProblemJson;
import org.splicebook.render.QuestionJson;
import org.splicebook.render.ReplyJson;
import org.splicebook.store.DraftState;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.Health;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Papers;
import org.splicebook.store.Past;
import org.splicebook.store.Progress;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.store.VerifyReport;

/** The store of a running server, reached over its API: one process holds the store, every other asks it. */
public final class ServedStore implements HouseStore {
    private final Client client;
    private final URI server;
    private final String key;

    /** Speaks to the server at that address. */
    public ServedStore(URI server) {
        this(server, "");
    }

    /** The same; key is what lets the owner of the server's process in. */
    public ServedStore(URI server, String key) {
        this.server = server;
        this.key = key;
        this.client = new Client(server.resolve(Api.BASE + "/"), key);
    }

    @Override
    public List<Revision> listHouses() {
        return revisionsIn(client.get("houses").json());
    }

    @Override
    public Optional<StoredHouse> findHouse(String id) {
        return find(id, Client.path("houses", id));
    }

    @Override
    public Optional<StoredHouse> findRevision(String id, long revision) {
        return find(id, Client.path("houses", id) + "?revision=" + revision);
    }

    @Override
    public Optional<StoredHouse> findAsOf(String id, Instant moment) {
        return find(id, Client.path("houses", id) + "?as-of=" + moment);
    }

    private Optional<StoredHouse> find(String id, String path) {
        Client.Answer answer = client.get(path, "Accept", "application/yaml");
        if (answer.status() == Statuses.of(ProblemKind.NOT_FOUND)) {
            return Optional.empty();
        }
        House house = HouseText.parse(answer.body()).get();
        return revisions(id).stream()
                .filter(r -> Tags.of(r).equals(answer.tag()))
                .findFirst()
                .map(r -> new StoredHouse(house, r));
    }

    @Override
    public List<Revision> revisions(String id) {
        Client.Answer answer = client.get(Client.path("houses", id, "revisions"));
        return answer.status() == Statuses.of(ProblemKind.NOT_FOUND) ? List.of() : revisionsIn(answer.json());
    }

    @Override
    public Result<Revision> put(House house, long expected, String who, String why) {
        String path = Client.path("houses", house.id()) + Client.query(Map.of("who", who, "why", why));
        String body = HouseText.write(house, Body.Format.YAML);
        return attempt(() -> expected == 0
                ? client.send("PUT", path, "application/yaml", body, "If-None-Match", "*")
                : client.send("PUT", path, "application/yaml", body, "If-Match", tag(house.id(), expected)));
    }

    @Override
    public Result<List<Revision>> putAll(Collection<House> houses, String who, String why) {
        List<String> known = listHouses().stream().map(Revision::house).toList();
        List<Problem> clashes = houses.stream()
                .filter(h -> known.contains(h.id()))
                .map(h -> Failures.problem(
                        ProblemKind.CONFLICT,
                        "House '" + h.id() + "' is stored already.",
                        "Replace it, or take it out of the list."))
                .toList();
        if (!clashes.isEmpty()) {
            return new Result.Failed<>(clashes);
        }
        List<Revision> made = new ArrayList<>();
        for (House house : houses) {
            Result<Revision> one = put(house, 0, who, why);
            if (!one.isOk()) {
                return new Result.Failed<>(one.problems());
            }
            made.add(one.get());
        }
        return Result.ok(made);
    }

    @Override
    public Result<Revision> delete(String id, long expected, String who, String why) {
        String path = Client.path("houses", id) + Client.query(Map.of("who", who, "why", why));
        return attempt(() -> client.send("DELETE", path, null, "", "If-Match", tag(id, expected)));
    }

    /** {@return the tag of a revision; one that the server will call stale where there is no such revision} */
    private String tag(String id, long number) {
        return revisions(id).stream()
                .filter(r -> r.number() == number)
                .findFirst()
                .map(Tags::of)
                .orElse("\"" + number + "-unknown\"");
    }

    @Override
    public Result<Integer> appendSightings(String id, List<Sighting> sightings) {
        Optional<StoredHouse> house = findHouse(id);
        if (house.isEmpty()) {
            return Result.failed(Failures.problem(
                    ProblemKind.NOT_FOUND,
                    "There is no house '" + id + "'.",
                    "The command questions lists the houses."));
        }
        String body = Json.text(HouseText.write(house.get().house(), sightings));
        return client.result(
                        () -> client.send("POST", Client.path("houses", id, "sightings"), "application/json", body))
                .map(a -> a.json().path("new").asInt());
    }

    @Override
    public List<Sighting> sightings(String id) {
        House house = findHouse(id)
                .orElseThrow(() -> new ProblemException(
                        Failures.problem(ProblemKind.NOT_FOUND, "There is no house '" + id + "'.", "")))
                .house();
        return HouseText.parse(
                        house,
                        client.get(Client.path("houses", id, "sightings")).body())
                .get();
    }

    @Override
    public Result<Revision> restore(Past past) {
        return Result.failed(ServedProperties.notOverTheServer());
    }

    /**
     * Sends an archive to the server, which verifies it whole before it stores anything.
     *
     * @return the newest revisions of what was restored
     */
    public List<Revision> restore(Path archive) {
        String body = client.sendFile("archive", ArchiveBody.TYPE, archive).body();
        JsonNode last = Json.read(body.strip().substring(body.strip().lastIndexOf('\n') + 1));
        if (!last.path("restored").isArray()) {
            List<Problem> problems = ProblemJson.readAll(last.path("problems"));
            throw new ProblemException(
                    problems.isEmpty()
                            ? List.of(Failures.problem(
                                    ProblemKind.INTERNAL,
                                    "The server did not say how it ended.",
                                    "Look which houses it has."))
                            : problems);
        }
        return revisionsIn(last.path("restored"));
    }

    @Override
    public Papers papers() {
        return new ServedPapers(client);
    }

    @Override
    public PropertyStore properties() {
        return new ServedProperties(client);
    }

    @Override
    public List<Question> questions() {
        List<Question> all = new ArrayList<>();
        client.get("questions").json().forEach(q -> all.add(QuestionJson.read(q)));
        return all;
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        String path = house.isEmpty()
                ? Client.path("questions", question)
                : Client.path("houses", house, "questions", question);
        return client.result(() -> client.send("GET", path + Client.query(parameters), null, ""))
                .map(a -> ReplyJson.read(a.json()));
    }

    @Override
    public List<KeptDraft> drafts(String house) {
        Client.Answer answer = client.get(Client.path("houses", house, "drafts"));
        List<KeptDraft> all = new ArrayList<>();
        if (answer.status() != Statuses.of(ProblemKind.NOT_FOUND)) {
            answer.json().forEach(d -> all.add(DraftJson.read(d)));
        }
        return all;
    }

    @Override
    public Optional<KeptDraft> findDraft(String house, String name) {
        Client.Answer answer = client.get(Client.path("houses", house, "drafts", name));
        return answer.status() == Statuses.of(ProblemKind.NOT_FOUND)
                ? Optional.empty()
                : Optional.of(DraftJson.read(answer.json()));
    }

    @Override
    public Result<KeptDraft> putDraft(DraftState state, long expected, String who) {
        Draft draft = state.draft();
        String path = Client.path("houses", draft.house(), "drafts", draft.name()) + Client.query(Map.of("who", who));
        Result<Client.Answer> answer = client.result(() -> {
            if (state.isWithdrawn()) {
                return client.send("DELETE", path, null, "", "If-Match", DraftJson.tag(expected));
            }
            String body = DraftFiles.write(draft);
            return expected == 0
                    ? client.send("PUT", path, "application/yaml", body, "If-None-Match", "*")
                    : client.send("PUT", path, "application/yaml", body, "If-Match", DraftJson.tag(expected));
        });
        return answer.map(a -> DraftJson.read(a.json()));
    }

    /** The server does the same moves itself, on the revision that the house must still be in. */
    @Override
    public Result<Revision> enterDraft(House house, DraftState state, long expected, String who, String why) {
        Draft draft = state.draft();
        int before = findDraft(draft.house(), draft.name())
                .map(d -> d.state().done())
                .orElse(0);
        String body = Json.text(Json.object()
                .put("steps", state.done() - before)
                .put("revision", state.base() - 1)
                .put("although", true));
        String path = Client.path("houses", draft.house(), "drafts", draft.name(), "entered")
                + Client.query(Map.of("who", who));
        return attempt(() -> client.send("POST", path, "application/json", body, "If-Match", DraftJson.tag(expected)));
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        Draft draft =
                drafted.draft().with(drafted.base().number(), drafted.draft().moves());
        String path = Client.path("houses", draft.house(), "drafts", "questions", question) + Client.query(parameters);
        return client.result(() -> client.send("POST", path, "application/yaml", DraftFiles.write(draft)))
                .map(a -> ReplyJson.read(a.json()));
    }

    @Override
    public VerifyReport verify(boolean rebuild, Progress progress) {
        String body = "{\"rebuild\": " + rebuild + "}";
        JsonNode o =
                client.send("POST", "verification", "application/json", body).json();
        List<String> differences = new ArrayList<>();
        o.path("differences").forEach(d -> differences.add(d.asText()));
        List<String> rebuilt = new ArrayList<>();
        o.path("rebuilt").forEach(d -> rebuilt.add(d.asText()));
        return new VerifyReport(o.path("houses").asInt(), differences, rebuilt);
    }

    @Override
    public Result<Listing> look(String cypher, int most) {
        ObjectNode body = Json.object();
        body.put("cypher", cypher);
        body.put("most", most);
        return client.result(() -> client.send("POST", "cypher", "application/json", Json.text(body)))
                .map(a -> (Listing) ReplyJson.read(a.json()));
    }

    @Override
    public Health health() {
        return RevisionJson.readHealth(client.state("health").json());
    }

    /** {@return the people of the same server} */
    public ServedPeople people() {
        return new ServedPeople(server, key);
    }

    /** {@return the server's address} */
    public String url() {
        return server.toString();
    }

    /** {@return whether a server of this program answers there} */
    public boolean isThere() {
        try {
            return client.state("health").json().path("program").asText().equals(RevisionJson.PROGRAM);
        } catch (ProblemException e) {
            return false;
        }
    }

    private Result<Revision> attempt(Client.Call call) {
        return client.result(call).map(a -> RevisionJson.read(a.json()));
    }

    private static List<Revision> revisionsIn(JsonNode list) {
        List<Revision> all = new ArrayList<>();
        list.forEach(r -> all.add(RevisionJson.read(r)));
        return all;
    }

    @Override
    public void close() {
        // The server keeps the store; nothing here is held open.
    }
}
