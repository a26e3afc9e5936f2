package org.splicebook.loadflow;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Panel;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;

/** Sources as windings, drops and connections to earth. */
final class SourceCircuit {
    private final CircuitBuilder b;

    SourceCircuit(CircuitBuilder b) {
        this.b = b;
    }

    void add(Source s) {
        boolean ofUtility =
                s.kind() == SourceKind.SERVICE || s.kind() == SourceKind.RISER || s.kind() == SourceKind.NEIGHBOUR;
        boolean bondedInHouse = s.bond() != null
                || b.house.panels().values().stream()
                        .anyMatch(p -> p.bonded() && p.supply().contains(s.name()));
        add(s.name(), s.system(), s.kind(), s, ofUtility, ofUtility && !bondedInHouse);
        if (ofUtility && !bondedInHouse) {
            b.assume(s.name(), "no bond of neutral and ground recorded in this house, taken as made at the source");
        }
        if (!ofUtility && !bondedInHouse) {
            b.assume(s.name(), "its neutral is taken as not bonded to ground in itself");
        }
        if (s.transformer() == null || s.transformer().percent() == null || s.drop() == null) {
            String silent = s.transformer() == null ? "transformer" : s.drop() == null ? "drop" : "percent";
            String typical = ", taken as typical of a " + s.kind().word();
            b.assume(s.name(), "impedance not wholly recorded (" + silent + ")" + typical);
        }
    }

    /** A source that nobody recorded, feeding a panel whose supply is not known. */
    void addUnknown(Panel p, SourceSystem system) {
        if (b.sources.stream().noneMatch(s -> s.name().equals("?"))) {
            add("?", system, SourceKind.SERVICE, null, true, true);
        }
        b.assume(p.name(), "supply not recorded, taken as " + system.word());
    }

    private void add(
            String name,
            SourceSystem system,
            SourceKind kind,
            @Nullable Source recorded,
            boolean earthed,
            boolean bonded) {
        int star = b.bar(name + ".star");
        List<Integer> windings = new ArrayList<>();
        List<Integer> windingBranches = new ArrayList<>();
        for (SourceSystem.Pole p : system.poles()) {
            String leg = name + "." + p.terminal();
            int winding = b.node(leg + ".winding");
            windings.add(winding);
            windingBranches.add(b.branch(leg + ".winding", Branch.Kind.WINDING, star, winding, null, 0));
            b.branch(leg, Branch.Kind.DROP, winding, b.bar(leg), null, 0);
        }
        int mutual = system == SourceSystem.SPLIT_PHASE_120_240
                ? b.branch(name + ".mutual", Branch.Kind.WINDING, windings.get(0), windings.get(1), null, 0)
                : -1;
        b.branch(name + ".n", Branch.Kind.DROP, star, b.bar(name + ".n"), null, 0);
        int ground = b.bar(name + ".g");
        if (bonded) {
            b.branch(name + ".bond", Branch.Kind.BOND, star, ground, null, Tables.number("contact", "bar"));
        }
        if (earthed) {
            b.branch(name + ".earth", Branch.Kind.EARTH, star, b.at(Circuit.EARTH), null, 0);
        }
        b.sources.add(new CircuitSource(
                name,
                system,
                star,
                List.copyOf(windings),
                List.copyOf(windingBranches),
                mutual,
                SourceModel.of(recorded, kind, system)));
    }
}
