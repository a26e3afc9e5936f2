package org.splicebook.visits;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reply;
import org.splicebook.answer.Row;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.store.StoredHouse;

/** Takes steps of visits, where they may be taken, and tells what the record of the house says meanwhile. */
public final class VisitDesk {
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]{0,63}");
    private static final int MOST_SUSPECTS = 5;

    private final HouseStore store;

    /** Works on a store. */
    public VisitDesk(HouseStore store) {
        this.store = store;
    }

    /** {@return the visits of a house, by name} */
    public List<Visit> list(String house) {
        return store.papers().list(Papers.VISIT, house).stream()
                .map(Visit::of)
                .filter(v -> !v.steps().isEmpty())
                .toList();
    }

    /** {@return a visit, if there is one of that name} */
    public Optional<Visit> find(String house, String name) {
        return store.papers()
                .find(Papers.VISIT, house, name)
                .map(Visit::of)
                .filter(v -> !v.steps().isEmpty());
    }

    /** {@return a name for the next visit of a house} */
    public String next(String house) {
        List<String> taken = list(house).stream().map(Visit::name).toList();
        int n = taken.size() + 1;
        while (taken.contains("visit-" + n)) {
            n++;
        }
        return "visit-" + n;
    }

    /**
     * Takes a step.
     *
     * @param name the visit's name; for the first step one that is free
     * @param step the word of the step
     * @param said what is said, by field
     * @param expected how many steps were taken before: 0 for the first
     * @param who who takes it
     * @return the visit after it
     * @throws ProblemException where it may not be taken, or what is said is wrong; nothing is stored then
     */
    public Visit take(String house, String name, String step, Map<String, String> said, long expected, String who) {
        if (!NAME.matcher(name).matches()) {
            throw wrong(ProblemKind.BAD_NAME, "visit", "'" + name + "' is no name of a visit.", "Use a-z, 0-9 and -.");
        }
        StoredHouse stored = house(house);
        StepKind kind = VisitKinds.step(step)
                .orElseThrow(() -> wrong(
                        ProblemKind.BAD_VALUE,
                        "step",
                        "'" + step + "' is no step.",
                        "There are " + String.join(", ", VisitKinds.words()) + "."));
        Optional<Visit> before = find(house, name);
        String from = before.map(v -> v.state().id()).orElse("");
        if (before.map(Visit::version).orElse(0L) == expected && !kind.from().contains(from)) {
            throw wrong(
                    ProblemKind.CONFLICT,
                    "step",
                    from.isEmpty()
                            ? "There is no visit " + name + " yet."
                            : "A visit that is " + from + " does not go on with " + step + ".",
                    "It goes on with "
                            + String.join(
                                    ", ",
                                    VisitKinds.steps(from).stream()
                                            .map(StepKind::id)
                                            .toList())
                            + ".");
        }
        Map<String, String> all = new LinkedHashMap<>(Said.checked(kind.fields(), said));
        check(stored, before, kind, all);
        all.put(Visit.REVISION, String.valueOf(stored.revision().number()));
        Result<Paper> done =
                store.papers().append(Papers.VISIT, house, name, new Said(step, all).write(), expected, who);
        return Visit.of(done.get());
    }

    private void check(StoredHouse stored, Optional<Visit> before, StepKind kind, Map<String, String> said) {
        if (said.containsKey("day")) {
            try {
                var unused = LocalDate.parse(said.get("day"));
            } catch (DateTimeParseException e) {
                throw wrong(ProblemKind.BAD_VALUE, "day", "'" + said.get("day") + "' is no day.", "Write 2026-05-01.");
            }
        }
        boxes(said.getOrDefault("boxes", "")).stream()
                .filter(b -> !stored.house().boxes().containsKey(b)
                        && !stored.house().panels().containsKey(b))
                .findFirst()
                .ifPresent(b -> {
                    throw wrong(
                            ProblemKind.DANGLING_NAME,
                            "boxes",
                            "The house has no box or panel '" + b + "'.",
                            "Name one that it has, or record it first.");
                });
        if (kind.to().equals("closed") && !said.containsKey("although")) {
            List<String> open = openTests(before.orElseThrow());
            if (!open.isEmpty()) {
                throw wrong(
                        ProblemKind.CONFLICT,
                        "although",
                        "What was changed asks for tests that are not recorded: " + String.join("; ", open) + ".",
                        "Record them, or say although what it is closed.");
            }
        }
    }

    /** {@return the names in a list of boxes} */
    public static List<String> boxes(String said) {
        return Pattern.compile("[,\\s]+")
                .splitAsStream(said)
                .filter(b -> !b.isEmpty())
                .toList();
    }

    /** {@return what was changed since the work began asks to be tested, and no recorded test closes; what could not be found out is open} */
    public List<String> openTests(Visit visit) {
        Result<Reply> due = store.ask("due", visit.house(), Map.of());
        List<String> open = new ArrayList<>();
        if (due.isOk() && due.get() instanceof Answer a) {
            for (Row r : a.rows()) {
                if (r.columns().get(Row.REVISION) instanceof Number revision && revision.longValue() > visit.base()) {
                    open.add(r.subject() + " (" + r.columns().get("test") + ")");
                }
            }
        } else {
            open.add("what has to be tested could not be found out");
        }
        return open;
    }

    /** {@return what the record of the house gained since the work began: revisions, tests, and sightings made since that day} */
    public List<String> since(Visit visit) {
        List<String> lines = new ArrayList<>();
        store.revisions(visit.house()).stream()
                .filter(r -> r.number() > visit.base())
                .forEach(r -> lines.add("Revision " + r.number() + ", "
                        + r.stored().toString().substring(0, 16) + ", " + r.who() + ": " + r.why()));
        House now = house(visit.house()).house();
        List<String> before = store.findRevision(visit.house(), visit.base())
                .map(s -> s.house().tests().stream().map(t -> t.id()).toList())
                .orElse(List.of());
        now.tests().stream()
                .filter(t -> !before.contains(t.id()))
                .forEach(t ->
                        lines.add("Test of " + t.device() + ", " + t.date() + ", " + t.what() + ": " + t.result()));
        String begun = visit.steps().get(0).at().toString().substring(0, 10);
        long read = store.sightings(visit.house()).stream()
                .filter(s -> s.date().compareTo(begun) >= 0)
                .count();
        if (read > 0) {
            lines.add(read + " observations of " + begun + " or later");
        }
        return lines;
    }

    /**
     * {@return what the program would say in a step: suspects and the next test out of the symptoms, who and what to send for them; by field,
     * empty where it knows nothing}
     */
    public Map<String, String> suggested(Visit visit, String step) {
        Map<String, String> said = new LinkedHashMap<>();
        if (step.equals("diagnose")) {
            String symptoms = String.join(
                    "; ",
                    visit.last("report", "symptoms")
                            .lines()
                            .map(String::strip)
                            .filter(l -> !l.isEmpty())
                            .toList());
            if (!symptoms.isEmpty()) {
                Result<Reply> reply = store.ask("diagnose", visit.house(), Map.of("symptoms", symptoms));
                if (reply.isOk() && reply.get() instanceof Answer a) {
                    said.put("suspects", suspects(a));
                    a.sections().stream()
                            .filter(s -> s.title().startsWith("Next test"))
                            .flatMap(s -> s.lines().stream())
                            .findFirst()
                            .ifPresent(l -> said.put("next", l));
                }
            }
        } else if (step.equals("plan")) {
            String first =
                    visit.last("diagnose", "suspects").lines().findFirst().orElse("");
            if (!first.isEmpty()) {
                VisitKinds.Send send = VisitKinds.send(first);
                said.put("who", send.who());
                said.put("bring", send.bring());
            }
        }
        return said;
    }

    private static String suspects(Answer a) {
        if (a.rows().isEmpty()) {
            return a.outcome();
        }
        List<String> lines = new ArrayList<>();
        for (Row r : a.rows().subList(0, Math.min(MOST_SUSPECTS, a.rows().size()))) {
            Object where = r.columns().getOrDefault("where", "");
            lines.add(r.subject() + " (" + r.columns().get("chance")
                    + (where.toString().isEmpty() ? "" : ", in " + where) + ")");
        }
        return String.join("\n", lines);
    }

    /** {@return what must be off for the boxes that are to be opened, and who is affected, as the record tells it} */
    public List<String> affected(Visit visit) {
        List<String> lines = new ArrayList<>();
        for (String box : boxes(visit.last("plan", "boxes"))) {
            Result<Reply> reply = store.ask("shut-off", visit.house(), Map.of("box", box));
            if (reply.isOk() && reply.get() instanceof Answer a) {
                lines.add(box + ": " + a.outcome());
                a.sections().stream()
                        .filter(s -> s.title().startsWith("Who and what"))
                        .forEach(s -> lines.addAll(s.lines()));
            } else {
                lines.add(box + ": what must be off could not be found out. Count all of it as live.");
            }
        }
        return lines;
    }

    private StoredHouse house(String id) {
        return store.findHouse(id)
                .orElseThrow(() -> wrong(
                        ProblemKind.NOT_FOUND,
                        "house",
                        "There is no house " + id + ".",
                        "Look at the list of houses."));
    }

    private static ProblemException wrong(ProblemKind kind, String field, String message, String cure) {
        return new ProblemException(Problem.error(kind, Where.field(field), message, cure));
    }
}
