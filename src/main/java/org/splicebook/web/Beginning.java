package org.splicebook.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.splicebook.record.House;
import org.splicebook.record.Panel;

/**
 * How far the record of a house has been begun: what it has to have before it answers anything, in the order in which a person comes by it.
 *
 * @param steps all of them, in order
 */
record Beginning(List<Step> steps) {
    private static final int MOST_NAMED = 12;

    /** What is recorded in a step. */
    enum Kind {
        PANEL("The panel"),
        ROOMS("The rooms"),
        BREAKERS("The breakers, as the directory has them"),
        POINTS("The first receptacles and lights"),
        BOX("The first box that is opened");

        private final String title;

        Kind(String title) {
            this.title = title;
        }

        /** {@return what it is called in an address} */
        String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** {@return what people call it} */
        String title() {
            return title;
        }
    }

    /**
     * One step.
     *
     * @param kind what is recorded in it
     * @param isDone whether there is anything of it
     * @param said what there is, and what of it is still missing
     */
    record Step(Kind kind, boolean isDone, String said) {}

    Beginning {
        steps = List.copyOf(steps);
    }

    /** {@return how far a house is} */
    static Beginning of(House house) {
        long devices = house.boxes().values().stream()
                .mapToLong(b -> b.devices().size())
                .sum();
        long opened = house.cables().values().stream()
                .flatMap(c -> c.ends().stream())
                .map(e -> e.boxOrNull())
                .filter(b -> b != null && house.boxes().containsKey(b))
                .distinct()
                .count();
        boolean hasBreakers =
                house.panels().values().stream().anyMatch(p -> !p.breakers().isEmpty());
        return new Beginning(List.of(
                new Step(Kind.PANEL, !house.panels().isEmpty(), panels(house)),
                new Step(
                        Kind.ROOMS,
                        !house.places().isEmpty(),
                        count(house.places().size(), "room")),
                new Step(Kind.BREAKERS, hasBreakers, breakers(house)),
                new Step(Kind.POINTS, devices > 0, count(devices, "device")),
                new Step(Kind.BOX, opened > 0, count(opened, "box", "boxes") + (opened > 0 ? " with cables" : ""))));
    }

    /** {@return whether there is something of every step} */
    boolean isDone() {
        return steps.stream().allMatch(Step::isDone);
    }

    /** {@return the first step of which there is nothing yet; the last where there is something of each} */
    Step next() {
        return steps.stream().filter(s -> !s.isDone()).findFirst().orElse(steps.get(steps.size() - 1));
    }

    /** {@return which step that is, from 1} */
    int number(Kind kind) {
        return steps.stream().map(Step::kind).toList().indexOf(kind) + 1;
    }

    /** {@return the step that comes after one; that one where none does} */
    Step after(Kind kind) {
        return steps.get(Math.min(number(kind), steps.size() - 1));
    }

    private static String count(long n, String what) {
        return count(n, what, what + "s");
    }

    private static String count(long n, String one, String more) {
        return n == 0 ? "nothing recorded yet" : n + " " + (n == 1 ? one : more);
    }

    private static String panels(House house) {
        if (house.panels().isEmpty()) {
            return "nothing recorded yet";
        }
        return house.panels().values().stream()
                .map(p -> {
                    List<String> missing = new ArrayList<>();
                    if (p.supply().isEmpty()) {
                        missing.add("what feeds it");
                    }
                    if (p.spaces() == null) {
                        missing.add("how many spaces it has");
                    }
                    if (p.place() == null) {
                        missing.add("where it hangs");
                    }
                    return p.name() + (missing.isEmpty() ? "" : ", still missing: " + String.join(", ", missing));
                })
                .collect(Collectors.joining("; "));
    }

    private static String breakers(House house) {
        long all = house.panels().values().stream()
                .mapToLong(p -> p.breakers().size())
                .sum();
        String open = house.panels().values().stream()
                .map(Beginning::open)
                .filter(s -> !s.isEmpty())
                .collect(Collectors.joining("; "));
        return count(all, "breaker") + (all == 0 || open.isEmpty() ? "" : "; " + open);
    }

    /** The spaces of a panel of which nothing is recorded; a space is more than a hole: a breaker may be there that nobody wrote down. */
    private static String open(Panel p) {
        if (p.spaces() == null) {
            return "";
        }
        Set<String> taken = p.breakers().values().stream()
                .flatMap(b -> b.spaces().stream())
                .map(s -> s.replaceAll("[^0-9]", ""))
                .collect(Collectors.toSet());
        List<String> open = IntStream.rangeClosed(1, p.spaces())
                .mapToObj(String::valueOf)
                .filter(s -> !taken.contains(s))
                .toList();
        return open.isEmpty()
                ? ""
                : "nothing recorded of " + p.name() + " in "
                        + String.join(", ", open.subList(0, Math.min(MOST_NAMED, open.size())))
                        + (open.size() > MOST_NAMED ? " and " + (open.size() - MOST_NAMED) + " spaces more" : "");
    }
}
