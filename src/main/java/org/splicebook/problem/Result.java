package org.splicebook.problem;

import java.util.List;
import java.util.function.Function;

/**
 * The outcome of reading or asking: a value, perhaps with warnings, or the problems that stopped it, all at once.
 *
 * @param <T> the value's type
 */
public sealed interface Result<T> {
    /** It worked. */
    record Ok<T>(T value, List<Problem> warnings) implements Result<T> {
        public Ok {
            warnings = List.copyOf(warnings);
        }
    }

    /** It did not; nothing was done. */
    record Failed<T>(List<Problem> problems) implements Result<T> {
        public Failed {
            problems = List.copyOf(problems);
        }
    }

    /** {@return a result without warnings} */
    static <T> Result<T> ok(T value) {
        return new Ok<>(value, List.of());
    }

    /** {@return a failure with one problem} */
    static <T> Result<T> failed(Problem problem) {
        return new Failed<>(List.of(problem));
    }

    /** {@return all that was said: warnings or problems} */
    default List<Problem> problems() {
        return this instanceof Failed<T> f ? f.problems() : ((Ok<T>) this).warnings();
    }

    /** {@return whether it worked} */
    default boolean isOk() {
        return this instanceof Ok<T>;
    }

    /**
     * {@return the value}
     *
     * @throws ProblemException with all problems when it did not work
     */
    default T get() {
        if (this instanceof Ok<T> ok) {
            return ok.value();
        }
        throw new ProblemException(problems());
    }

    /** {@return this with its value passed through a function} */
    default <U> Result<U> map(Function<? super T, ? extends U> f) {
        return this instanceof Ok<T> ok ? new Ok<>(f.apply(ok.value()), ok.warnings()) : new Failed<>(problems());
    }
}
