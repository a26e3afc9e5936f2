package org.splicebook.render.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.Protection;
import org.splicebook.render.sheet.Sheet.Block;
import org.splicebook.render.sheet.Sheet.Label;
import org.splicebook.render.sheet.Sheet.Title;
import org.splicebook.render.sheet.Sheet.Words;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;

/**
 * The marks of NEC 406.4(D)(2) for receptacles in a box without an equipment ground (editions since 1993; visible when installed since
 * 2014): a ground-fault receptacle is marked for the missing ground; a grounding type behind a ground-fault device for both. A protection
 * that does not hold in every completion and lever position gets no mark, and is told.
 */
final class ReceptacleLabels {
    private static final String PROTECTED = "GFCI PROTECTED";
    private static final String UNGROUNDED = "NO EQUIPMENT GROUND";

    private ReceptacleLabels() {}

    static List<Block> of(Source s) {
        Map<String, List<LoadPointWiring>> devices = new LinkedHashMap<>();
        s.wiring().loadPoints().stream()
                .filter(l -> isReceptacle(s, l))
                .forEach(l -> devices.computeIfAbsent(l.device(), k -> new ArrayList<>())
                        .add(l));
        List<Block> labels = new ArrayList<>();
        List<String> bare = new ArrayList<>();
        List<String> open = new ArrayList<>();
        devices.forEach((device, points) -> {
            if (points.stream().allMatch(p -> isGrounded(p))) {
                return;
            }
            String where = device + ", " + PointTables.place(s, points.get(0));
            if (points.stream().anyMatch(p -> !p.grounds().isEmpty())) {
                open.add(where);
            } else if (points.stream().allMatch(p -> isProtected(p))) {
                boolean isItself = points.stream()
                        .allMatch(p -> p.protections().stream()
                                .anyMatch(x -> isGroundFault(x.function(), x.sureness())
                                        && x.by().name().equals(device)));
                labels.add(new Label(isItself ? List.of(UNGROUNDED) : List.of(PROTECTED, UNGROUNDED), where));
            } else {
                bare.add(where);
            }
        });
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Words(
                "By NEC 406.4(D)(2), as recorded: grounding-type receptacles in a box without an equipment ground. Prove each with its"
                        + " test button and a meter before it is marked. The local code and the inspector decide."));
        blocks.addAll(labels);
        if (labels.isEmpty()) {
            blocks.add(new Words("The record shows no receptacle that these marks are for."));
        }
        told(blocks, "Without a ground, and not shown to be protected in every case: these get no mark", bare);
        told(blocks, "Ground not certain: test before anything is marked", open);
        return blocks;
    }

    private static void told(List<Block> blocks, String title, List<String> lines) {
        if (!lines.isEmpty()) {
            blocks.add(new Title(title));
            lines.forEach(l -> blocks.add(new Words(l)));
        }
    }

    private static boolean isReceptacle(Source s, LoadPointWiring l) {
        Box box = s.house().boxes().get(l.box());
        Device d = box == null ? null : box.devices().get(l.device());
        return d != null && d.kind().title().toLowerCase(Locale.ROOT).contains("receptacle");
    }

    private static boolean isGrounded(LoadPointWiring l) {
        return l.grounds().stream().anyMatch(g -> g.sureness() != Sureness.MAY);
    }

    private static boolean isProtected(LoadPointWiring l) {
        return l.protections().stream().anyMatch(p -> isGroundFault(p.function(), p.sureness()));
    }

    private static boolean isGroundFault(Protection function, Sureness sureness) {
        return function == Protection.GROUND_FAULT && sureness == Sureness.MUST;
    }
}
