package org.splicebook.people;

import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.Property;
import org.splicebook.store.PropertyStore;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredProperty;

/** Properties as somebody may use them. Who may say which houses belong to one could give themselves any house: a manager of all alone. */
record GuardedProperties(PropertyStore behind, PeopleStore people, Clock clock, Supplier<Visitor> visitor)
        implements PropertyStore {
    @Override
    public List<Revision> list() {
        return behind.list().stream().filter(r -> reads(r.house())).toList();
    }

    @Override
    public Optional<StoredProperty> find(String id) {
        return reads(id) ? behind.find(id) : Optional.empty();
    }

    @Override
    public Optional<StoredProperty> findRevision(String id, long revision) {
        return reads(id) ? behind.findRevision(id, revision) : Optional.empty();
    }

    @Override
    public List<Revision> revisions(String id) {
        return reads(id) ? behind.revisions(id) : List.of();
    }

    @Override
    public Result<Revision> put(Property property, long expected, String who, String why) {
        Visitor writer = visitor.get();
        if (!writer.mayEverywhere(Role.MANAGER)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "Which houses a property has is for a manager of everything to say.",
                    "Ask one."));
        }
        Result<Revision> done = behind.put(property, expected, writer.isOwner() ? who : writer.name(), why);
        if (done.isOk()) {
            people.append(new AuditEntry(
                    clock.instant(),
                    writer.name(),
                    writer.way(),
                    "property stored",
                    "",
                    property.id() + ", revision " + done.get().number(),
                    ""));
        }
        return done;
    }

    @Override
    public Result<Revision> restore(List<StoredProperty> past) {
        Visitor writer = visitor.get();
        if (!writer.mayEverywhere(Role.MANAGER)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "Which houses a property has is for a manager of everything to say.",
                    "Ask one."));
        }
        Result<Revision> done = behind.restore(past);
        if (done.isOk()) {
            people.append(new AuditEntry(
                    clock.instant(),
                    writer.name(),
                    writer.way(),
                    "property restored",
                    "",
                    done.get().house() + ", revision " + done.get().number(),
                    ""));
        }
        return done;
    }

    private boolean reads(String property) {
        return visitor.get().mayProperty(Role.READER, property);
    }
}
