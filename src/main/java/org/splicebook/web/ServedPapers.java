package org.splicebook.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.render.Json;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/** What is kept beside the houses of a running server, over its API. */
record ServedPapers(Client client) implements Papers {
    private static String path(String kind, String house, String... more) {
        String[] all = new String[3 + more.length];
        all[0] = "houses";
        all[1] = house;
        all[2] = kind + "s";
        System.arraycopy(more, 0, all, 3, more.length);
        return Client.path(all);
    }

    @Override
    public List<Paper> list(String kind, String house) {
        Client.Answer answer = client.get(path(kind, house));
        List<Paper> all = new ArrayList<>();
        if (answer.status() != Statuses.of(ProblemKind.NOT_FOUND)) {
            answer.json().forEach(o -> all.add(PaperJson.read(kind, house, o)));
        }
        return all;
    }

    @Override
    public Optional<Paper> find(String kind, String house, String name) {
        if (kind.equals(RESIDENT)) {
            return list(kind, house).stream().filter(p -> p.name().equals(name)).findFirst();
        }
        Client.Answer answer = client.get(path(kind, house, name));
        return answer.status() == Statuses.of(ProblemKind.NOT_FOUND)
                ? Optional.empty()
                : Optional.of(PaperJson.read(kind, house, answer.json()));
    }

    @Override
    public Result<Paper> append(String kind, String house, String name, String text, long expected, String who) {
        JsonNode line = Json.read(text);
        ObjectNode said = line.path("said").deepCopy();
        // The server says itself on which revision a step was taken.
        said.remove("revision");
        ObjectNode body = Json.object();
        body.put("step", line.path("step").asText()).put("version", expected).set("said", said);
        return client.result(() -> client.send(
                        "POST",
                        path(kind, house, name, "steps") + Client.query(Map.of("who", who)),
                        "application/json",
                        Json.text(body)))
                .map(a -> PaperJson.read(kind, house, a.json()));
    }

    @Override
    public void keep(Paper paper, boolean isMarked) {
        if (!paper.kind().equals(RESIDENT)) {
            throw new ProblemException(Failures.problem(
                    ProblemKind.REFUSED, "Visits are kept step by step.", "Take the next step of it."));
        }
        Paper.Line line = paper.lines().get(paper.lines().size() - 1);
        Client.Answer unused = client.send(
                "PUT",
                path(RESIDENT, paper.house(), paper.name()) + Client.query(Map.of("who", line.who())),
                "application/json",
                Json.text(Json.read(line.text()).path("said")));
    }

    @Override
    public boolean erase(String kind, String house, String name) {
        return client.result(() -> client.send("DELETE", path(kind, house, name), null, ""))
                .isOk();
    }

    @Override
    public boolean isMarked(String kind, String house) {
        Client.Answer answer = client.get(Client.path("houses", house, "care"));
        return answer.status() != Statuses.of(ProblemKind.NOT_FOUND)
                && answer.json().path("depends").asBoolean();
    }
}
