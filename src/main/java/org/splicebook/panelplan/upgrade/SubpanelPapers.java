package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.List;
import org.splicebook.panelplan.ServiceSize;
import org.splicebook.rewire.Worklist;

/** The choice of what moves to a further panel as pages. */
public final class SubpanelPapers {
    private SubpanelPapers() {}

    /** {@return the pages, in the order in which they are used} */
    public static List<Page> of(SubpanelPlan plan) {
        List<Page> pages = new ArrayList<>(List.of(open(plan), moves(plan), stays(plan), panel(plan)));
        SubpanelPlan.Drafted drafted = plan.drafted();
        if (drafted != null) {
            Worklist work =
                    Worklist.of(plan.house(), drafted.after(), drafted.draft().moves());
            pages.add(ChangePage.of(drafted.findings(), drafted.currents()));
            List<String> steps = new ArrayList<>();
            work.steps().forEach(step -> steps.add((steps.size() + 1) + ". " + step));
            pages.add(Page.lines("steps", "Order of work, all of it with power off and tested", steps));
            pages.add(parts(work));
        }
        pages.add(checks(plan));
        return List.copyOf(pages);
    }

    private static Page parts(Worklist work) {
        List<List<String>> rows = new ArrayList<>();
        work.parts().forEach((part, n) -> rows.add(List.of(String.valueOf(n), part)));
        return new Page(
                "parts",
                "Parts",
                List.of("number", "part"),
                rows,
                List.of("Every breaker and interlock must be listed for its panel (110.3(B))."));
    }

    private static Page open(SubpanelPlan plan) {
        List<String> lines = new ArrayList<>();
        plan.separate().forEach(s -> lines.add("First: " + s));
        plan.asked().forEach(s -> lines.add("To be asked: " + s));
        if (plan.drafted() == null) {
            lines.add("No moves are written: " + plan.notDrafted());
        }
        plan.assumed().forEach(s -> lines.add("Taken to be so: " + s));
        return Page.lines("open", "Before anything: what is to be put right, asked and known", lines);
    }

    private static Page moves(SubpanelPlan plan) {
        List<List<String>> rows = new ArrayList<>();
        for (SubpanelPlan.Moved m : plan.moves()) {
            for (int i = 0; i < m.said().size(); i++) {
                Integer leg = plan.legs().get(m.said().get(i));
                rows.add(List.of(
                        m.said().get(i),
                        m.labels().get(i),
                        m.breakers().get(i),
                        leg == null
                                ? plan.wanted().isBackedUp() && !plan.wanted().twoLegs() ? "the one" : "both"
                                : leg == 0 ? "A" : "B",
                        i == 0 ? Words.whole(m.va()) : "with " + m.said().get(0),
                        i == 0 && m.starts() > 0 ? Words.whole(m.starts()) : ""));
            }
        }
        List<String> notes = new ArrayList<>();
        notes.add((plan.isProved() ? "Proved: no other choice is better" : "Not proved to be the best")
                + " by what is wanted, in its order.");
        notes.add("Together " + Words.whole(plan.va()) + " VA of "
                + Words.whole(plan.wanted().bears()) + " VA that are borne.");
        Double surge = plan.wanted().surge();
        if (plan.wanted().isBackedUp()) {
            notes.add("While the largest motor starts " + Words.whole(plan.starting()) + " VA"
                    + (surge == null
                            ? "; what the source gives then is not known."
                            : " of " + Words.whole(surge) + " VA."));
        }
        if (!plan.asked().isEmpty()) {
            notes.add("By what is known: while anything above is asked, it is not said to be enough.");
        }
        return new Page(
                "moves",
                "What moves to the further panel: whole sets, each hot with its neutral",
                List.of("breaker today", "circuit", "breaker then", "leg", "VA", "VA more to start"),
                rows,
                notes);
    }

    private static Page stays(SubpanelPlan plan) {
        return new Page(
                "stays",
                "What stays, and why",
                List.of("breaker today", "circuit", "VA", "why"),
                plan.stays().stream()
                        .map(s -> List.of(
                                String.join("; ", s.said()),
                                String.join("; ", s.labels()),
                                Words.whole(s.va()),
                                s.why()))
                        .toList(),
                List.of());
    }

    private static Page panel(SubpanelPlan plan) {
        int poles = plan.moves().stream().mapToInt(SubpanelPlan.Moved::poles).sum();
        int wires = plan.moves().stream().mapToInt(SubpanelPlan.Moved::wires).sum();
        Integer bus = ServiceSize.standard(Math.max(plan.feeder(), 60));
        List<String> notes = new ArrayList<>();
        notes.add(poles + " of " + plan.wanted().rooms().size() + " spaces that circuits may take are taken; " + wires
                + " hots are led over, each with its neutral and its ground, spliced in today's panel or pulled back.");
        if (plan.wanted().isBackedUp()) {
            notes.add("The source comes in by spaces "
                    + String.join(" and ", plan.wanted().sourceSpaces())
                    + " beside the main, interlocked with it: only one of the two can be on.");
        }
        notes.add("Feeder: a breaker of " + plan.feeder() + " A, " + plan.copper()
                + " copper for each hot and the neutral, ground by Table 250.122; bus of " + bus
                + " A or more. Neutral and ground stay apart in it (250.24(A)(5)).");
        if (!plan.wanted().isBackedUp()) {
            notes.add("In today's panel " + (poles - 2)
                    + " spaces become free, two of those left being taken by the feeder's breaker.");
        }
        return Page.lines("panel", "The further panel and its feeder", notes);
    }

    private static Page checks(SubpanelPlan plan) {
        List<List<String>> rows = new ArrayList<>();
        UpgradeData.listed(plan.wanted().isBackedUp() ? "backup-checks" : "subpanel-checks")
                .forEach(c -> rows.add(List.of(c.getOrDefault("what", ""), c.getOrDefault("article", ""), "")));
        return new Page("checks", "Checklist", List.of("what", "article", "seen by"), rows, List.of());
    }
}
