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
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;

/**
 * What is kept beside houses, as somebody may use it. What is personal is for a manager of the house, and each look at it is logged; that
 * somebody is marked, and no more, is told to whoever may read the house.
 */
record GuardedPapers(Papers behind, PeopleStore people, Clock clock, Supplier<Visitor> visitor, Estates estates)
        implements Papers {
    @Override
    public List<Paper> list(String kind, String house) {
        require(reading(kind), house);
        List<Paper> found = behind.list(kind, house);
        if (isPersonal(kind) && !found.isEmpty()) {
            log("residents read", house, found.size() + " of them");
        }
        return found;
    }

    @Override
    public Optional<Paper> find(String kind, String house, String name) {
        require(reading(kind), house);
        Optional<Paper> found = behind.find(kind, house, name);
        if (isPersonal(kind) && found.isPresent()) {
            log("resident read", house, name);
        }
        return found;
    }

    @Override
    public Result<Paper> append(String kind, String house, String name, String text, long expected, String who) {
        require(isPersonal(kind) ? Role.MANAGER : Role.RECORDER, house);
        Visitor writer = visitor.get();
        Result<Paper> done = behind.append(kind, house, name, text, expected, writer.isOwner() ? who : writer.name());
        if (done.isOk()) {
            log(kind + " added to", house, name + ", line " + done.get().version());
        }
        return done;
    }

    @Override
    public void keep(Paper paper, boolean isMarked) {
        require(Role.MANAGER, paper.house());
        Visitor writer = visitor.get();
        Paper kept = writer.isOwner() || writer.mayEverywhere(Role.MANAGER)
                ? paper
                : new Paper(
                        paper.kind(),
                        paper.house(),
                        paper.name(),
                        paper.lines().stream()
                                .map(l -> new Paper.Line(l.at(), writer.name(), l.text()))
                                .toList());
        behind.keep(kept, isMarked);
        log(paper.kind() + " kept", paper.house(), paper.name());
    }

    @Override
    public boolean erase(String kind, String house, String name) {
        require(Role.MANAGER, house);
        boolean done = behind.erase(kind, house, name);
        if (done) {
            log(kind + " erased", house, name);
        }
        return done;
    }

    @Override
    public boolean isMarked(String kind, String house) {
        return visitor.get().may(Role.READER, house, estates) && behind.isMarked(kind, house);
    }

    private static boolean isPersonal(String kind) {
        return kind.equals(RESIDENT);
    }

    private static Role reading(String kind) {
        return isPersonal(kind) ? Role.MANAGER : Role.READER;
    }

    private void require(Role least, String house) {
        if (!visitor.get().may(least, house, estates)) {
            boolean reads = visitor.get().may(Role.READER, house, estates);
            throw new ProblemException(Problem.error(
                    reads ? ProblemKind.REFUSED : ProblemKind.NOT_FOUND,
                    reads ? Where.NOWHERE : Where.field(house),
                    reads ? "This is for a " + least.word() + "." : "There is no house " + house + ".",
                    reads ? "Ask a manager for it." : "Look at the list of houses."));
        }
    }

    private void log(String what, String house, String said) {
        Visitor who = visitor.get();
        people.append(new AuditEntry(clock.instant(), who.name(), who.way(), what, house, said, ""));
    }
}
