package org.splicebook.ask;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.splicebook.answer.Nearest;
import org.splicebook.answer.Question;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;
import org.splicebook.record.House;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/** Parameters that name a thing of the house. What a parameter names follows from what it is called. */
final class HouseNames {
    /** Stands for every thing of its kind. */
    static final String ANY = "any";

    private HouseNames() {}

    /** {@return a problem for each parameter that names what the house does not have} */
    static List<Problem> unknown(Wiring wiring, Question question, Map<String, String> all) {
        List<Problem> problems = new ArrayList<>();
        for (Question.Parameter p : question.parameters()) {
            String value = all.getOrDefault(p.name(), "");
            Collection<String> names = names(wiring, p.name());
            if (names.isEmpty() || value.equals(p.otherwise())) {
                continue;
            }
            for (String name : several(value)) {
                if (!names.contains(name)) {
                    problems.add(Problem.error(
                            ProblemKind.NOT_FOUND,
                            Where.field(p.name()),
                            "The house " + wiring.house().id() + " has no " + said(p.name()) + " " + name + ".",
                            Nearest.cure(name, names)));
                }
            }
        }
        return problems;
    }

    /** {@return the names in a value that may name several, with commas between} */
    static List<String> several(String value) {
        return Arrays.stream(value.split(",")).map(String::strip).toList();
    }

    private static String said(String parameter) {
        return parameter.equals("point") ? "load point" : parameter;
    }

    private static Collection<String> names(Wiring wiring, String parameter) {
        House house = wiring.house();
        return switch (parameter) {
            case "box", "between" ->
                joined(house.boxes().keySet(), house.panels().keySet());
            case "place", "spot" -> house.places().keySet();
            case "cable" -> house.cables().keySet();
            case "point" ->
                wiring.loadPoints().stream().map(LoadPointWiring::id).toList();
            case "breaker" -> Breakers.all(house).keySet();
            case "switch" -> Devices.switches(house).keySet();
            default -> List.of();
        };
    }

    private static List<String> joined(Collection<String> a, Collection<String> b) {
        List<String> all = new ArrayList<>(a);
        all.addAll(b);
        return all;
    }
}
