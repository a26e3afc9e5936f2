package org.splicebook.visits;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.splicebook.store.Paper;

/**
 * A visit: what was done of it, step by step.
 *
 * @param house the house's id
 * @param name its name, unique in the house
 * @param steps what was done, the first first
 */
public record Visit(String house, String name, List<Step> steps) {
    /** The revision of the house that a step was taken on stands under this name beside what was said. */
    static final String REVISION = "revision";

    /** A step: its kind, when and by whom it was taken, what was said. */
    public record Step(StepKind kind, Instant at, String who, Map<String, String> said) {
        public Step {
            said = Collections.unmodifiableMap(new LinkedHashMap<>(said));
        }

        /** {@return what was said under a name; empty where nothing was} */
        public String value(String name) {
            return said.getOrDefault(name, "");
        }

        /** {@return the revision of the house that it was taken on} */
        public long revision() {
            return Long.parseLong(said.getOrDefault(REVISION, "0"));
        }
    }

    public Visit {
        steps = List.copyOf(steps);
    }

    static Visit of(Paper paper) {
        List<Step> steps = new ArrayList<>();
        for (Paper.Line line : paper.lines()) {
            Said said = Said.read(line.text());
            VisitKinds.step(said.step()).ifPresent(k -> steps.add(new Step(k, line.at(), line.who(), said.said())));
        }
        return new Visit(paper.house(), paper.name(), steps);
    }

    /** {@return the state it is in} */
    public VisitKinds.State state() {
        return VisitKinds.state(steps.get(steps.size() - 1).kind().to());
    }

    /** {@return whether anything is left to do} */
    public boolean isOpen() {
        return !state().next().isEmpty();
    }

    /** {@return how many steps were taken: the next is added to so many} */
    public long version() {
        return steps.size();
    }

    /** {@return what was last said under a name in steps of a kind; empty where nothing was} */
    public String last(String step, String field) {
        String found = "";
        for (Step s : steps) {
            if (s.kind().id().equals(step)) {
                found = s.value(field);
            }
        }
        return found;
    }

    /** {@return the revision that the work of this visit began on, else the one that it was last reported on} */
    public long base() {
        long base = 0;
        for (Step s : steps) {
            if (s.kind().id().equals("begin") || s.kind().to().equals("reported")) {
                base = s.revision();
            }
        }
        return base;
    }

    /** {@return the first line of what was said} */
    public String words() {
        return last("report", "said").lines().findFirst().orElse("");
    }
}
