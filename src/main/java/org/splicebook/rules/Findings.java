package org.splicebook.rules;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.answer.Reason;
import org.splicebook.record.Basis;
import org.splicebook.wiring.Way;

/** Takes what one rule finds, and adds what the pack says of that rule. */
final class Findings {
    private final Facts facts;
    private final RuleText text;
    private final List<Finding> all = new ArrayList<>();

    Findings(Facts facts, RuleText text) {
        this.facts = facts;
        this.text = text;
    }

    RuleText text() {
        return text;
    }

    List<Finding> all() {
        return all;
    }

    /** Begins a finding that the record shows. */
    Draft found(String subject, String said) {
        return new Draft(Certainty.FOUND, subject, said);
    }

    /** Begins a finding that may be so. */
    Draft possible(String subject, String said) {
        return new Draft(Certainty.POSSIBLE, subject, said);
    }

    /** Begins one that is found where sure, and else possible. */
    Draft found(boolean sure, String subject, String said) {
        return new Draft(sure ? Certainty.FOUND : Certainty.POSSIBLE, subject, said);
    }

    /** Begins what the rule needs to know. */
    Draft asked(String subject, String said) {
        return new Draft(Certainty.ASKED, subject, said);
    }

    /** A finding that is being written. {@link #add} ends it. */
    final class Draft {
        private final Certainty certainty;
        private final String subject;
        private final String said;
        private final List<String> outlets = new ArrayList<>();
        private final List<String> boxes = new ArrayList<>();
        private final List<Reason> ways = new ArrayList<>();
        private @Nullable Basis basis;
        private @Nullable String place;
        private @Nullable String breaker;
        private @Nullable Integer since = text.since();
        private @Nullable Integer perhaps;

        private Draft(Certainty certainty, String subject, String said) {
            this.certainty = certainty;
            this.subject = subject;
            this.said = said;
        }

        /** Names a box or panel, and takes its place. */
        Draft in(@Nullable String box) {
            if (box != null && !boxes.contains(box)) {
                boxes.add(box);
                place = place == null ? facts.placeOf(box) : place;
                on(facts.basisOf(box));
            }
            return this;
        }

        Draft outlets(List<String> loadPoints) {
            outlets.addAll(loadPoints);
            return this;
        }

        Draft of(@Nullable String itsBreaker) {
            breaker = itsBreaker;
            return this;
        }

        Draft on(Basis b) {
            basis = basis == null ? b : basis.weaker(b);
            return this;
        }

        /** Says from which year the code asked for it here, where that differs from the rule at large. */
        Draft since(@Nullable Integer year) {
            since = year == null ? since : year;
            return this;
        }

        /** Says from which year the code asked for it in some such places, and from which year in this one for sure; null: not known. */
        Draft between(@Nullable Integer some, @Nullable Integer sure) {
            perhaps = some;
            since = sure;
            return this;
        }

        /** Adds a way that shows it. */
        Draft way(String about, Way way) {
            ways.add(Reason.of(about, way, facts.house()));
            return on(way.basis());
        }

        void add() {
            all.add(new Finding(
                    text.id(),
                    text.title(),
                    text.severity(),
                    certainty,
                    subject,
                    said,
                    place,
                    breaker,
                    outlets.stream().distinct().toList(),
                    boxes,
                    ways,
                    basis == null ? facts.house().basis() : basis,
                    judged(perhaps, since),
                    text.article(),
                    text.mark(),
                    text.cure(),
                    text.licensed(),
                    text.local()));
        }
    }

    private Judged judged(@Nullable Integer perhaps, @Nullable Integer since) {
        Integer built = facts.house().built();
        Judged.WhenBuilt then;
        if (text.article().isEmpty()) {
            then = Judged.WhenBuilt.NOT_JUDGED;
        } else if (built == null || since == null) {
            then = Judged.WhenBuilt.UNKNOWN;
        } else if (built >= since) {
            then = Judged.WhenBuilt.NOT_ALLOWED;
        } else {
            then = perhaps != null && built >= perhaps ? Judged.WhenBuilt.UNKNOWN : Judged.WhenBuilt.ALLOWED;
        }
        return new Judged(text.hazard(), then, !text.article().isEmpty());
    }
}
