package org.splicebook.ask;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Dependence;
import org.splicebook.answer.Parameters;
import org.splicebook.answer.Question;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.DraftedHouse;
import org.splicebook.store.ForwardingStore;
import org.splicebook.store.HouseStore;
import org.splicebook.store.Papers;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.evidence.Evidence;
import org.splicebook.wiring.shutoff.ShutOffs;

/**
 * A store that answers computed questions beside those of the store behind it: who asks cannot tell them apart. Every answer also says
 * what the readings and the record leave unproved.
 */
public final class AnsweringStore extends ForwardingStore {
    /** How many houses' wiring is kept ready. */
    private static final int KEPT = 32;

    private final Function<House, Wiring> derivation;
    private final Kept kept;

    /**
     * Computes before a store.
     *
     * @param behind the store, closed with this one
     * @param derivation what the wiring does
     */
    public AnsweringStore(HouseStore behind, Function<House, Wiring> derivation) {
        super(behind);
        this.derivation = derivation;
        this.kept = new Kept(KEPT, derivation);
    }

    @Override
    public List<Question> questions() {
        Map<String, ComputedQuestion> computed = ComputedQuestions.BY_ID;
        return Stream.concat(
                        behind.questions().stream().filter(q -> !computed.containsKey(q.id())),
                        computed.values().stream().map(ComputedQuestion::question))
                .sorted(Comparator.comparing(Question::id))
                .toList();
    }

    @Override
    public Result<Reply> ask(String question, String house, Map<String, String> parameters) {
        return answer(question, house, parameters).map(r -> withCare(r, house));
    }

    /** Whoever depends on power is thought of with every answer that can lead to a switch. */
    private Reply withCare(Reply reply, String house) {
        return reply instanceof Answer a && !house.isEmpty() && behind.papers().isMarked(Papers.RESIDENT, house)
                ? Dependence.before(a, Dependence.HERE)
                : reply;
    }

    private Result<Reply> answer(String question, String house, Map<String, String> parameters) {
        ComputedQuestion computed = ComputedQuestions.BY_ID.get(question);
        if (computed != null) {
            return compute(computed, house, parameters);
        }
        return behind.ask(question, house, parameters).map(reply -> reply instanceof Answer a ? honest(a) : reply);
    }

    @Override
    public Result<Reply> askDraft(String question, DraftedHouse drafted, Map<String, String> parameters) {
        return DraftQuestions.ask(behind, drafted, question, parameters, derivation)
                .map(r -> withCare(r, drafted.base().house()));
    }

    private Result<Reply> compute(ComputedQuestion computed, String house, Map<String, String> given) {
        Question question = computed.question();
        List<Problem> wrong = Parameters.wrong(question, computed.choices(), house, given);
        if (!wrong.isEmpty()) {
            return new Result.Failed<>(wrong);
        }
        Optional<StoredHouse> stored = behind.findHouse(house);
        if (stored.isEmpty()) {
            return Result.failed(Problem.error(
                    ProblemKind.NOT_FOUND,
                    Where.field("house"),
                    "There is no house " + house + ".",
                    "Look at the list of houses."));
        }
        Map<String, String> all = Parameters.filled(question, given);
        List<Sighting> sightings = behind.sightings(house);
        return kept.reply(
                question.id(), all, stored.get(), sightings, () -> compute(computed, stored.get(), sightings, all));
    }

    private Result<Reply> compute(
            ComputedQuestion computed, StoredHouse stored, List<Sighting> sightings, Map<String, String> all) {
        Question question = computed.question();
        Wiring wiring = kept.wiring(stored);
        List<Problem> unknown = HouseNames.unknown(wiring, question, all);
        if (!unknown.isEmpty()) {
            return new Result.Failed<>(unknown);
        }
        Asked asked = new Asked(question, stored, wiring, sightings, all, workings(stored, sightings));
        try {
            Reply reply = computed.computation().reply(asked);
            return Result.ok(reply instanceof Answer a ? a.withNotProven(Unproved.lines(asked, a)) : reply);
        } catch (ProblemException e) {
            return new Result.Failed<>(e.problems());
        }
    }

    private Workings workings(StoredHouse stored, List<Sighting> sightings) {
        String house = stored.house().id();
        return new Workings() {
            @Override
            public List<Revision> revisions() {
                return behind.revisions(house);
            }

            @Override
            public Optional<StoredHouse> revision(long number) {
                return behind.findRevision(house, number);
            }

            @Override
            public Wiring wiring(StoredHouse one) {
                return kept.wiring(one);
            }

            @Override
            public Standing standing() {
                return kept.standing(stored, sightings, () -> behind.revisions(house), this::revision);
            }

            @Override
            public ShutOffs shutOffs() {
                return kept.shutOffs(stored, standing().standing());
            }

            @Override
            public Evidence evidence() {
                return kept.evidence(stored, standing().standing());
            }
        };
    }

    /** Adds what the readings and the record leave unproved, unless the house was changed meanwhile. */
    private Answer honest(Answer answer) {
        String house = answer.heading().house();
        Optional<StoredHouse> stored = house.isEmpty() ? Optional.empty() : behind.findHouse(house);
        return stored.filter(s -> s.revision().number() == answer.heading().revision())
                .map(s -> answer.withNotProven(Unproved.lines(s.house(), behind.sightings(house), answer)))
                .orElse(answer);
    }
}
