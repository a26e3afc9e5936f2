package org.splicebook.people;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;

/** A role, and what it holds for. */
public record Grant(Role role, Scope scope) {
    private static final Pattern SAID = Pattern.compile("([a-z]+)(?:@(property:)?([A-Za-z0-9][A-Za-z0-9._-]{0,99}))?");

    /** {@return how it is written: {@code manager}, {@code reader@pear-tree-house}, {@code recorder@property:mill-lane}} */
    public String said() {
        return switch (scope.kind()) {
            case EVERYTHING -> role.word();
            case PROPERTY -> role.word() + "@property:" + scope.name();
            case HOUSE -> role.word() + "@" + scope.name();
        };
    }

    /** Reads what {@link #said} writes. */
    public static Result<Grant> parse(String text) {
        Matcher m = SAID.matcher(text.strip());
        Optional<Role> role = m.matches() ? Role.of(m.group(1)) : Optional.empty();
        if (role.isEmpty()) {
            return Result.failed(
                    Problem.error(
                            ProblemKind.BAD_VALUE,
                            Where.field("role"),
                            "'" + text + "' is not a role.",
                            "Write reader, recorder or manager; for one house reader@HOUSE, for one property reader@property:NAME."));
        }
        Scope scope = m.group(3) == null
                ? Scope.EVERYTHING
                : m.group(2) == null ? Scope.house(m.group(3)) : Scope.property(m.group(3));
        return Result.ok(new Grant(role.get(), scope));
    }

    /** {@return the same, its role no higher than that} */
    Grant atMost(Role most) {
        return role.includes(most) ? new Grant(most, scope) : this;
    }
}
