package org.splicebook.render;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Where;
import org.splicebook.rules.Certainty;
import org.splicebook.rules.Checked;
import org.splicebook.rules.Finding;
import org.splicebook.rules.RuleText;

/**
 * Findings as a SARIF 2.1.0 log (OASIS, 2020), for tools that read the results of checks. What is found is a failure; what is possible or
 * has to be known asks for a review; what was accepted is suppressed. A finding's key is its fingerprint.
 */
public final class Sarif {
    private static final String SCHEMA =
            "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private final Map<String, Where> positions;
    private final Map<String, Integer> ruleIndex = new HashMap<>();

    private Sarif(Map<String, Where> positions) {
        this.positions = positions;
    }

    /**
     * {@return a log of one check}
     *
     * @param version the program's version
     * @param positions where things are written, by name; empty where the record came from a store
     */
    public static ObjectNode write(Checked checked, String version, Map<String, Where> positions) {
        return new Sarif(positions).log(checked, version);
    }

    private ObjectNode log(Checked checked, String version) {
        ObjectNode driver = Json.object().put("name", "Splicebook").put("version", version);
        List<RuleText> rules = checked.pack().rules().values().stream()
                .sorted(java.util.Comparator.comparing(RuleText::id))
                .toList();
        rules.forEach(r -> ruleIndex.put(r.id(), ruleIndex.size()));
        driver.set("rules", Json.list(rules, Sarif::rule));
        ObjectNode run = Json.object();
        run.set("tool", Json.object().set("driver", driver));
        run.put("columnKind", "unicodeCodePoints");
        ArrayNode results = run.putArray("results");
        checked.open().forEach(f -> results.add(result(f)));
        checked.accepted().forEach(a -> {
            ObjectNode one = result(a.finding());
            one.putArray("suppressions")
                    .add(Json.object()
                            .put("kind", "external")
                            .put("status", "accepted")
                            .put("justification", a.acceptance().reason()));
            results.add(one);
        });
        run.set(
                "properties",
                Json.object()
                        .put("house", checked.house().id())
                        .put("pack", checked.pack().id())
                        .put(
                                "note",
                                "Advice before an inspection, never an approval. The local code and the inspector decide."));
        ObjectNode log = Json.object().put("$schema", SCHEMA).put("version", "2.1.0");
        log.putArray("runs").add(run);
        return log;
    }

    private static ObjectNode rule(RuleText r) {
        ObjectNode o = Json.object().put("id", r.id());
        o.set("shortDescription", text(r.title()));
        o.set("help", text(r.cure()));
        o.set("defaultConfiguration", Json.object().put("level", level(r.severity())));
        ObjectNode more = Json.object().put("article", r.article()).put("mark", r.mark());
        o.set("properties", more.put("hazard", r.hazard()).put("licensed", r.licensed()));
        return o;
    }

    private static String level(org.splicebook.rules.Severity s) {
        return switch (s) {
            case DANGER -> "error";
            case FAULT -> "warning";
            case ADVICE -> "note";
        };
    }

    private static ObjectNode text(String said) {
        return Json.object().put("text", said);
    }

    private ObjectNode result(Finding f) {
        boolean found = f.certainty() == Certainty.FOUND;
        ObjectNode o = Json.object().put("ruleId", f.rule());
        o.put("ruleIndex", Objects.requireNonNull(ruleIndex.get(f.rule())));
        o.put("kind", found ? "fail" : "review").put("level", found ? level(f.severity()) : "none");
        o.set("message", text(f.subject() + ": " + f.said()));
        o.putArray("locations").add(location(f));
        o.set("partialFingerprints", Json.object().put("finding/v1", f.key()));
        ObjectNode more = Json.object()
                .put("certainty", f.certainty().word())
                .put("severity", f.severity().word());
        more.put("basis", f.basis().word()).put("place", f.place()).put("circuit", f.breaker());
        more.set("outlets", Json.tree(f.outlets()));
        more.set("boxes", Json.tree(f.boxes()));
        o.set("properties", more);
        return o;
    }

    private ObjectNode location(Finding f) {
        ObjectNode o = Json.object();
        Where at = where(f);
        if (at != null && at.file() != null) {
            ObjectNode physical = Json.object();
            physical.set("artifactLocation", Json.object().put("uri", uri(at.file())));
            physical.set("region", Json.object().put("startLine", at.line()).put("startColumn", at.column()));
            o.set("physicalLocation", physical);
        }
        ArrayNode logical = o.putArray("logicalLocations");
        logical.add(Json.object().put("name", f.subject()).put("kind", "member"));
        f.boxes().forEach(b -> logical.add(Json.object().put("name", b).put("kind", "module")));
        return o;
    }

    /** The thing itself, else what it is a part of, else the first box concerned. */
    private @Nullable Where where(Finding f) {
        List<String> names = new ArrayList<>();
        for (String name = f.subject(); !name.isEmpty(); name = shorter(name)) {
            names.add(name);
        }
        names.addAll(f.boxes());
        return names.stream()
                .map(positions::get)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
    }

    private static String shorter(String name) {
        int cut = Math.max(name.lastIndexOf('.'), name.lastIndexOf('@'));
        return cut < 0 ? "" : name.substring(0, cut);
    }

    /** A relative reference (RFC 3986): what may not stand in one is written in percent. */
    private static String uri(String file) {
        StringBuilder s = new StringBuilder();
        for (byte b : file.replace('\\', '/').getBytes(StandardCharsets.UTF_8)) {
            char c = (char) (b & 0xff);
            if (c < 128 && (Character.isLetterOrDigit(c) || "-._~/".indexOf(c) >= 0)) {
                s.append(c);
            } else {
                s.append(String.format("%%%02X", (int) c));
            }
        }
        return s.toString();
    }
}
