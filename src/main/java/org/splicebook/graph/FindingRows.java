package org.splicebook.graph;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.splicebook.record.Acceptance;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.Severity;

/** What the check of a house found, as rows. */
final class FindingRows {
    private final RowBuilder rows;
    private final Set<String> accepted = new HashSet<>();

    private FindingRows(Checked checked, RowBuilder rows) {
        this.rows = rows;
        checked.accepted().stream()
                .map(Checked.Accepted::acceptance)
                .map(Acceptance::finding)
                .forEach(accepted::add);
    }

    /** Adds the rows of what was found, after those of what was recorded and derived. */
    static void add(Checked checked, RowBuilder rows) {
        FindingRows f = new FindingRows(checked, rows);
        rows.set(
                rows.node("House", checked.house().id()),
                "checkedBy",
                checked.pack().id());
        checked.all().forEach(f::finding);
        // Of several with one key the last is kept, as of the nodes.
        Map<String, Finding> byKey = new HashMap<>();
        checked.all().forEach(found -> byKey.put(found.key(), found));
        for (Severity s : Severity.values()) {
            rows.set(
                    rows.node("House", checked.house().id()),
                    s.word() + "Rules",
                    f.tallies(byKey.values().stream()
                            .filter(found -> found.severity() == s)
                            .toList()));
        }
    }

    /**
     * {@return for each rule how many of its findings are found, possible, asked and accepted, in a text each: to ask of ten thousand houses
     * which are the worst, all their findings are too many to be read}
     */
    private List<String> tallies(List<Finding> findings) {
        return findings.stream()
                .collect(Collectors.groupingBy(Finding::rule, TreeMap::new, Collectors.toList()))
                .entrySet()
                .stream()
                .map(e -> tally(e.getKey(), e.getValue()))
                .toList();
    }

    private String tally(String rule, List<Finding> findings) {
        EnumMap<Certainty, Integer> standing = new EnumMap<>(Certainty.class);
        int letStand = 0;
        for (Finding f : findings) {
            if (accepted.contains(f.key())) {
                letStand++;
            } else {
                standing.merge(f.certainty(), 1, Integer::sum);
            }
        }
        return rule + " " + standing.getOrDefault(Certainty.FOUND, 0) + " "
                + standing.getOrDefault(Certainty.POSSIBLE, 0) + " " + standing.getOrDefault(Certainty.ASKED, 0) + " "
                + letStand;
    }

    private void finding(Finding f) {
        int n = rows.node("Finding", f.key());
        rows.set(n, "rule", f.rule()).set(n, "title", f.title());
        rows.set(n, "severity", f.severity()).set(n, "certainty", f.certainty());
        rows.set(n, "subject", f.subject()).set(n, "said", f.said());
        rows.set(n, "place", f.place()).set(n, "breaker", f.breaker()).set(n, "basis", f.basis());
        rows.set(n, "article", f.article()).set(n, "hazard", f.judged().hazard());
        rows.set(n, "whenBuilt", f.judged().whenBuilt())
                .set(n, "newWork", f.judged().newWork());
        rows.set(n, "accepted", accepted.contains(f.key()));
        concerns(n, f);
    }

    /** What several findings of one key concern goes together. */
    private void concerns(int n, Finding f) {
        Set<String> names = new TreeSet<>();
        if (rows.get(n, "concerns") instanceof List<?> known) {
            known.forEach(k -> names.add(String.valueOf(k)));
        }
        names.addAll(f.outlets());
        names.addAll(f.boxes());
        rows.set(n, "concerns", List.copyOf(names));
    }
}
