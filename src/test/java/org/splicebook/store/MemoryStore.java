package org.splicebook.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Assumption;
import org.splicebook.answer.Caution;
import org.splicebook.answer.Heading;
import org.splicebook.answer.Leads;
import org.splicebook.answer.Listing;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Basis;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/** A store for tests that keeps everything in memory and can be told to be away. Two questions, whose replies are made up. */
public final class MemoryStore implements HouseStore {
    private record Kept(House house, Revision revision) {}

    private final Map<String, List<Kept>> houses = new TreeMap<>();
    private final Map<String, List<Sighting>> appended = new TreeMap<>();
    private final MemoryProperties properties = new MemoryProperties();
    private final MemoryPapers papers = new MemoryPapers();
    private final Map<String, Map<String, KeptDraft>> drafts = new TreeMap<>();
    private boolean away;
    private boolean closed;

    /** Makes every call fail, as when the database is gone. */
    public void goAway() {
        away = true;
    }

    public boolean isClosed() {
        return closed;
    }

    @Override
    public synchronized List<Revision> listHouses() {
        reach();
        return houses.values().stream()
                .map(MemoryStore::last)
                .map(Kept::revision)
                .filter(r -> !r.deleted())
                .toList();
    }

    @Override
    public synchronized Optional<StoredHouse> findHouse(String id) {
        reach();
        return Optional.ofNullable(houses.get(id))
                .map(MemoryStore::last)
                .filter(k -> !k.revision().deleted())
                .map(k -> new StoredHouse(k.house(), k.revision()));
    }

    @Override
    public synchronized Optional<StoredHouse> findRevision(String id, long revision) {
        reach();
        return houses.getOrDefault(id, List.of()).stream()
                .filter(k -> k.revision().number() == revision && !k.revision().deleted())
                .map(k -> new StoredHouse(k.house(), k.revision()))
                .findFirst();
    }

    @Override
    public synchronized Optional<StoredHouse> findAsOf(String id, Instant moment) {
        reach();
        return houses.getOrDefault(id, List.of()).stream()
                .filter(k -> !k.revision().stored().isAfter(moment))
                .reduce((a, b) -> b)
                .filter(k -> !k.revision().deleted())
                .map(k -> new StoredHouse(k.house(), k.revision()));
    }

    @Override
    public synchronized List<Revision> revisions(String id) {
        reach();
        return houses.getOrDefault(id, List.of()).stream().map(Kept::revision).toList();
    }

    @Override
    public synchronized Result<Revision> put(House house, long expected, String who, String why) {
        reach();
        return write(house, expected, who, why, false);
    }

    @Override
    public synchronized Result<List<Revision>> putAll(Collection<House> all, String who, String why) {
        reach();
        if (all.stream().anyMatch(h -> findHouse(h.id()).isPresent())) {
            return Result.failed(problem(ProblemKind.CONFLICT, "One of the houses exists."));
        }
        return Result.ok(all.stream().map(h -> put(h, 0, who, why).get()).toList());
    }

    @Override
    public synchronized Result<Revision> delete(String id, long expected, String who, String why) {
        reach();
        return findHouse(id)
                .map(k -> write(k.house(), expected, who, why, true))
                .orElseGet(() -> Result.failed(problem(ProblemKind.NOT_FOUND, "There is no such house.")));
    }

    private Result<Revision> write(House house, long expected, String who, String why, boolean deleted) {
        long newest = findHouse(house.id()).map(s -> s.revision().number()).orElse(0L);
        if (newest != expected) {
            return Result.failed(problem(ProblemKind.STALE, "The newest revision is " + newest + "."));
        }
        List<Kept> kept = houses.computeIfAbsent(house.id(), k -> new ArrayList<>());
        Revision made = new Revision(
                house.id(), house.said(), kept.size() + 1L, Instant.now(), who, why, deleted, digest(house.toString()));
        kept.add(new Kept(house, made));
        return Result.ok(made);
    }

    @Override
    public synchronized Result<Integer> appendSightings(String id, List<Sighting> sightings) {
        reach();
        List<Sighting> known = sightings(id);
        List<Sighting> fresh = new ArrayList<>();
        for (Sighting s : sightings) {
            Optional<Sighting> same =
                    known.stream().filter(k -> k.id().equals(s.id())).findFirst();
            if (same.isPresent() && !same.get().equals(s)) {
                return Result.failed(problem(ProblemKind.CONFLICT, "Sighting " + s.id() + " is known otherwise."));
            }
            if (same.isEmpty()) {
                fresh.add(s);
            }
        }
        appended.computeIfAbsent(id, k -> new ArrayList<>()).addAll(fresh);
        return Result.ok(fresh.size());
    }

    @Override
    public synchronized List<Sighting> sightings(String id) {
        reach();
        List<Sighting> all = new ArrayList<>();
        findHouse(id).ifPresent(s -> all.addAll(s.house().sightings()));
        all.addAll(appended.getOrDefault(id, List.of()));
        return all;
    }

    @Override
    public synchronized Result<Revision> restore(Past past) {
        reach();
        if (houses.containsKey(past.house())) {
            return Result.failed(problem(ProblemKind.CONFLICT, "The house is there."));
        }
        List<Kept> kept = new ArrayList<>();
        House last = null;
        for (Past.Step s : past.steps()) {
            last = s.house() == null ? last : s.house();
            kept.add(new Kept(last, s.revision()));
        }
        houses.put(past.house(), kept);
        appended.put(past.house(), new ArrayList<>(past.appended()));
        return Result.ok(past.newest().revision());
    }

    @Override
    public Papers papers() {
        return papers;
    }

    @Override
    public PropertyStore properties() {
        return properties;
    }

    @Override
    public List<Question> questions() {
        reach();
        return List.of(
                new Question(
                        "goes-off",
                        "What should be off when {breaker} is opened?",
                        List.of(new Question.Parameter("breaker", "A breaker, as main.6.", "")),
                        List.of("subject", "status", "basis"),
                        Question.Kind.ANSWER,
                        false,
                        "memory"),
                new Question(
                        "all-houses",
                        "Which houses are there?",
                        List.of(),
                        List.of("house", "revision", "panels"),
                        Question.Kind.LISTING,
                        true,
                        "memory"));
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        reach();
        if (question.equals("all-houses")) {
            Heading heading =
                    new Heading(question, "Which houses are there?", "", "", 0, Instant.EPOCH, parameters, false);
            return Result.ok(new Listing(
                    heading,
                    List.of("house", "revision", "panels"),
                    listHouses().stream()
                            .map(r -> List.<Object>of(r.house(), r.number(), List.of("main")))
                            .toList()));
        }
        Optional<StoredHouse> stored = findHouse(house);
        if (!question.equals("goes-off") || stored.isEmpty()) {
            return Result.failed(problem(ProblemKind.NOT_FOUND, "There is no such question or house."));
        }
        if (!parameters.containsKey("breaker")) {
            return Result.failed(problem(ProblemKind.MISSING, "The parameter breaker is not given."));
        }
        Revision r = stored.get().revision();
        Heading heading = new Heading(
                question,
                "What should be off when " + parameters.get("breaker") + " is opened?",
                house,
                r.name(),
                r.number(),
                r.stored(),
                parameters,
                false);
        return Result.ok(new Answer(
                heading,
                List.of(
                        new Row(
                                "door-1",
                                Row.Status.SHOWN,
                                Basis.SEEN,
                                Map.of("place", "Hall"),
                                List.of("terminal door-1.hot (seen)", "wire K1.black (seen)")),
                        new Row("lamp-1", Row.Status.POSSIBLE, Basis.ASSUMED, Map.of("place", "Attic"), List.of())),
                List.of(Assumption.NO_BURIED_TAP),
                List.of("That lamp-1 hangs on another breaker."),
                List.of("Look at lamp-1 with the breaker opened."),
                Caution.forWhat(Leads.TO_A_WIRE)));
    }

    @Override
    public synchronized List<KeptDraft> drafts(String house) {
        reach();
        return findHouse(house).isEmpty()
                ? List.of()
                : List.copyOf(drafts.getOrDefault(house, Map.of()).values());
    }

    @Override
    public synchronized Optional<KeptDraft> findDraft(String house, String name) {
        return drafts(house).stream().filter(d -> d.name().equals(name)).findFirst();
    }

    @Override
    public synchronized Result<KeptDraft> putDraft(DraftState state, long expected, String who) {
        reach();
        String house = state.draft().house();
        if (findHouse(house).isEmpty()) {
            return Result.failed(problem(ProblemKind.NOT_FOUND, "There is no such house."));
        }
        long newest =
                findDraft(house, state.draft().name()).map(KeptDraft::version).orElse(0L);
        if (newest != expected) {
            return Result.failed(problem(ProblemKind.STALE, "The newest version is " + newest + "."));
        }
        KeptDraft next = new KeptDraft(state, newest + 1, Instant.now(), who);
        drafts.computeIfAbsent(house, k -> new TreeMap<>()).put(next.name(), next);
        return Result.ok(next);
    }

    @Override
    public synchronized Result<Revision> enterDraft(
            House house, DraftState state, long expected, String who, String why) {
        long newest = findHouse(house.id()).map(s -> s.revision().number()).orElse(0L);
        if (newest != state.base() - 1) {
            return Result.failed(problem(ProblemKind.STALE, "The newest revision is " + newest + "."));
        }
        Result<KeptDraft> put = putDraft(state, expected, who);
        return put.isOk() ? put(house, newest, who, why) : new Result.Failed<>(put.problems());
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        return ask(question, drafted.base().house(), parameters);
    }

    @Override
    public VerifyReport verify(boolean rebuild, Progress progress) {
        reach();
        progress.at(1, 1, "all");
        return new VerifyReport(houses.size(), List.of(), List.of());
    }

    @Override
    public Health health() {
        return new Health(!away, "embedded", "memory", away ? 0 : listHouses().size(), 1, away ? "away" : "");
    }

    @Override
    public void close() {
        closed = true;
    }

    private void reach() {
        if (away) {
            throw new ProblemException(problem(ProblemKind.STORE_AWAY, "The database does not answer."));
        }
    }

    private static Kept last(List<Kept> kept) {
        return kept.get(kept.size() - 1);
    }

    private static Problem problem(ProblemKind kind, String message) {
        return Problem.error(kind, Where.NOWHERE, message, "Try otherwise.");
    }

    private static String digest(String text) {
        try {
            MessageDigest sha = MessageDigest.getInstance("SHA-256");
            return HexFormat.of().formatHex(sha.digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
