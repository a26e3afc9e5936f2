package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.splicebook.rewire.CurrentChange;
import org.splicebook.rules.Comparison;
import org.splicebook.rules.Finding;

/** What a change cures, what it brings, and what it does to the currents, as a page. */
final class ChangePage {
    private ChangePage() {}

    static Page of(Comparison findings, List<CurrentChange> currents) {
        List<List<String>> rows = new ArrayList<>();
        Map<String, List<Finding>> cured = new TreeMap<>();
        findings.cured()
                .forEach(f ->
                        cured.computeIfAbsent(f.title(), k -> new ArrayList<>()).add(f));
        cured.forEach((t, all) -> rows.add(List.of("no more", t, subjects(all))));
        Map<String, List<Finding>> added = new LinkedHashMap<>();
        findings.added()
                .forEach(f -> added.computeIfAbsent(
                                f.title() + " (" + f.certainty().word() + ")", k -> new ArrayList<>())
                        .add(f));
        added.forEach((t, all) -> rows.add(List.of("new", t, subjects(all))));
        List<String> notes = new ArrayList<>();
        currents.forEach(c -> notes.add((c.isWorse() ? "Worse, with " : "With ") + c.loads() + " loads: " + c.said()));
        return new Page(
                "change", "What a check finds before and after", List.of("change", "finding", "about"), rows, notes);
    }

    private static String subjects(List<Finding> all) {
        return String.join(", ", all.stream().map(Finding::subject).toList());
    }
}
