package org.splicebook.ask;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.splicebook.answer.Answer;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.House;
import org.splicebook.record.Panel;
import org.splicebook.record.Place;
import org.splicebook.survey.passes.Chances;
import org.splicebook.survey.passes.RecordedSurvey;
import org.splicebook.survey.passes.Wishes;

/** What both questions about a survey share: their parameters, and the survey as far as it has come. */
final class Surveying {
    static final String NOBODY = "none";

    /** A reading in fifty is wrong, people being people. */
    static final String MISREADS = "0.02";

    static final String SURE = "0.99";

    /** What a lamp that is out does not show. */
    static final String NOT_DEAD =
            "That anything is dead. Out is what a lamp showed; only a test of every wire, on the day, makes it safe to touch.";

    static final String RANKS = "Shares of likelihood rank and exclude nothing. Shut-offs do not go by them.";

    private Surveying() {}

    /** {@return the question with the parameters of a survey} */
    static ComputedQuestion.Draft with(ComputedQuestion.Draft question) {
        return question.with("sure", "share of 1 at which a load point counts as known, for example 0.99", SURE)
                .with("misreads", "share of readings that are wrong, for example 0.02", MISREADS)
                .with(
                        "stay-on",
                        "breakers that must not be turned off, with commas between, for example main.9",
                        NOBODY)
                .with("alone", "breakers that go off only by themselves, and briefly", NOBODY)
                .with("free", "breakers that may be off with others, whatever their label says", NOBODY)
                .with("backed-up", "load points of medical devices whose backup runs, by their users' word", NOBODY)
                .with(
                        "sags",
                        "how voltages sagged under a test load, as sag-order takes it: outlets that share more than the source hang on one"
                                + " breaker",
                        NOBODY)
                .with(
                        "elsewhere",
                        "with sags: ohms by which an outlet of another circuit on the same leg sags meanwhile (its volts over the amperes),"
                                + " for example 0.04",
                        NOBODY);
    }

    static RecordedSurvey of(Asked asked) {
        Set<String> breakers = new LinkedHashSet<>();
        for (Panel p : asked.house().panels().values()) {
            p.breakers().keySet().forEach(b -> breakers.add(p.name() + "." + b));
        }
        Set<String> points = new LinkedHashSet<>();
        asked.wiring().loadPoints().forEach(l -> {
            points.add(l.id());
            points.add(l.device());
        });
        Wishes wishes = new Wishes(
                names(asked, "stay-on", breakers, "breaker"),
                names(asked, "alone", breakers, "breaker"),
                names(asked, "free", breakers, "breaker"),
                names(asked, "backed-up", points, "load point"));
        return RecordedSurvey.of(
                asked.wiring(),
                asked.workings().standing().standing(),
                wishes,
                Chances.OLD_HOUSE.withMisreads(share(asked, "misreads", 0, 0.4)),
                asked.value("sags").equals(NOBODY)
                        ? List.of()
                        : SagReader.read(asked).circuits());
    }

    /** {@return the readings that all else speaks against, in words} */
    static Answer.Section doubted(RecordedSurvey recorded) {
        return new Answer.Section(
                "Readings that all else speaks against: try them again",
                false,
                recorded.doubted().stream()
                        .map(d ->
                                d.point() + ": " + (d.out() ? "not lit" : "lit") + " in " + d.pass() + " of " + d.date()
                                        + ", with " + String.join(", ", d.off())
                                        + " off. Everything else says: "
                                        + d.likeliest().said(recorded.survey().throwing()) + ".")
                        .toList());
    }

    private static Set<String> names(Asked asked, String parameter, Set<String> known, String what) {
        String value = asked.value(parameter);
        if (value.equals(NOBODY)) {
            return Set.of();
        }
        List<String> names = Arrays.stream(value.split(",", -1))
                .map(String::strip)
                .filter(s -> !s.isEmpty())
                .toList();
        for (String name : names) {
            if (!known.contains(name)) {
                throw Asked.wrong(
                        ProblemKind.NOT_FOUND,
                        parameter,
                        "The house has no " + what + " " + name + ".",
                        org.splicebook.answer.Nearest.cure(name, List.copyOf(known)));
            }
        }
        return new LinkedHashSet<>(names);
    }

    /** {@return the share at which a point counts as known} */
    static double sure(Asked asked) {
        return share(asked, "sure", 0.5, 1);
    }

    private static double share(Asked asked, String parameter, double least, double most) {
        try {
            double share = Double.parseDouble(asked.value(parameter));
            if (share >= least && share < most) {
                return share;
            }
        } catch (NumberFormatException e) {
            // told below, with what is out of bounds
        }
        throw Asked.wrong(
                ProblemKind.BAD_VALUE,
                parameter,
                "The parameter " + parameter + " is \"" + asked.value(parameter) + "\".",
                "It is a share from " + least + " to less than " + most + ".");
    }

    static String place(House house, String key) {
        Place place = house.places().get(key);
        return place == null ? key : place.said();
    }
}
