package org.splicebook.rules;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Acceptance;
import org.splicebook.record.House;

/** Lets findings stand, and takes that back. */
public final class Acceptances {
    private static final int MOST_NEAR = 8;

    private Acceptances() {}

    /** {@return the finding of that key, or a problem that names those near it} */
    public static Result<Finding> find(Checked checked, String key) {
        Finding found = checked.find(key);
        if (found != null) {
            return Result.ok(found);
        }
        String rule = key.split("/", 2)[0];
        List<String> near = checked.all().stream()
                .filter(f -> f.rule().equals(rule))
                .map(Finding::key)
                .limit(MOST_NEAR)
                .toList();
        return failed(
                ProblemKind.NOT_FOUND,
                "finding",
                "The check finds no '" + key + "'.",
                near.isEmpty()
                        ? "A check lists what is found; a finding is named by rule, slash, what it is about."
                        : "Of that rule it finds " + String.join(", ", near) + ".");
    }

    /**
     * {@return the record with an acceptance of a finding as the check says it now}
     *
     * @param key the finding's key
     * @param reason why it may stand
     * @param by who decides, if said
     * @param day the day
     */
    public static Result<House> accept(
            Checked checked, String key, @Nullable String reason, @Nullable String by, LocalDate day) {
        if (reason == null || reason.isBlank()) {
            return failed(ProblemKind.MISSING, "reason", "There is no reason.", "Say why the finding may stand.");
        }
        return find(checked, key).map(f -> {
            List<Acceptance> all = others(checked.house(), key);
            all.add(new Acceptance(f.key(), f.certainty().word(), f.said(), reason, by, day.toString()));
            return checked.house().withAccepted(all);
        });
    }

    /** {@return the record without the acceptance of a finding} */
    public static Result<House> withdraw(House house, String key) {
        List<Acceptance> left = others(house, key);
        return left.size() == house.accepted().size()
                ? failed(ProblemKind.NOT_FOUND, "finding", "'" + key + "' was not accepted.", "A check lists what was.")
                : Result.ok(house.withAccepted(left));
    }

    private static List<Acceptance> others(House house, String key) {
        List<Acceptance> all = new ArrayList<>(house.accepted());
        all.removeIf(a -> a.finding().equals(key));
        return all;
    }

    private static <T> Result<T> failed(ProblemKind kind, String field, String message, String cure) {
        return Result.failed(Problem.error(kind, Where.field(field), message, cure));
    }
}
