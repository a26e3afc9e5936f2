package org.splicebook.panelplan.upgrade;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Wire;
import org.splicebook.rules.Pack;
import org.splicebook.rules.RuleText;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Sureness;
import org.splicebook.wiring.WireUse;
import org.splicebook.wiring.Wiring;

/** What breakers may be at most by the wires behind them, and what wires breakers need: by the pack's own table (240.4(D)). */
final class WireLimits {
    private static final String RULE = "wire-too-small";

    /** The weakest wire behind a breaker. */
    record Weakest(String wire, double amperes) {}

    private final Wiring wiring;
    private final @Nullable RuleText table;
    private final Map<String, Weakest> byPole = new TreeMap<>();
    private final Map<String, Set<String>> unsized = new TreeMap<>();

    WireLimits(Wiring wiring, Pack pack) {
        this.wiring = wiring;
        this.table = pack.rules().get(RULE);
        for (WireUse u : wiring.wires()) {
            int dot = u.wire().indexOf('.');
            Cable cable = wiring.house().cables().get(u.wire().substring(0, Math.max(0, dot)));
            Wire wire = cable == null
                    ? null
                    : cable.wires().stream()
                            .filter(w -> u.wire().substring(dot + 1).equals(w.name()))
                            .findFirst()
                            .orElse(null);
            if (cable != null && wire != null && !wire.metal() && !isFeeder(wiring.house(), cable)) {
                u.uses().stream()
                        .filter(x -> x.pole() != null && x.sureness() != Sureness.MAY)
                        .forEach(x -> add(Objects.requireNonNull(x.pole()), u.wire(), wire));
            }
        }
    }

    private void add(String pole, String name, Wire wire) {
        Double limit = wire.size() == null ? null : limit(wire.size(), wire.material());
        if (limit == null) {
            unsized.computeIfAbsent(pole, k -> new TreeSet<>()).add(name);
        } else {
            byPole.merge(pole, new Weakest(name, limit), (a, b) -> a.amperes() <= b.amperes() ? a : b);
        }
    }

    private static boolean isFeeder(House house, Cable c) {
        return c.ends().stream().allMatch(e -> house.panels().containsKey(String.valueOf(e.boxOrNull())));
    }

    private @Nullable Double limit(String size, Wire.@Nullable Material material) {
        boolean copper = material == null || material == Wire.Material.COPPER;
        return rows(copper ? "copper" : "aluminium").stream()
                .filter(r -> r.startsWith(size + " "))
                .map(r -> Double.valueOf(r.substring(size.length() + 1)))
                .findFirst()
                .orElse(null);
    }

    private List<String> rows(String metal) {
        return table == null ? List.of() : table.list(metal);
    }

    /** {@return the weakest of the sized wires behind these poles, where all that they feed has no plate of its own that may allow more} */
    Optional<Weakest> weakest(Collection<String> poles, List<LoadPointWiring> served) {
        boolean letOff = !served.isEmpty() && served.stream().allMatch(this::isLetOff);
        return letOff
                ? Optional.empty()
                : poles.stream()
                        .map(byPole::get)
                        .filter(Objects::nonNull)
                        .min(java.util.Comparator.comparingDouble(Weakest::amperes));
    }

    private boolean isLetOff(LoadPointWiring l) {
        Device d = Optional.ofNullable(wiring.house().boxes().get(l.box()))
                .map(b -> b.devices().get(l.device()))
                .orElse(null);
        return d != null
                && table != null
                && (table.has("let-off", d.kind().name()) || (d.load() != null && table.has("let-off", d.load())));
    }

    /** {@return the wires behind these poles whose size is not recorded} */
    List<String> unsized(Collection<String> poles) {
        List<String> all = new ArrayList<>();
        poles.forEach(p -> all.addAll(unsized.getOrDefault(p, Set.of())));
        return all;
    }

    /** {@return the smallest copper that a breaker of so many amperes may have behind it; null where the table ends before it} */
    @Nullable
    String copperFor(double amperes) {
        return rows("copper").stream()
                .filter(r -> Double.parseDouble(r.substring(r.lastIndexOf(' ') + 1)) >= amperes)
                .map(r -> r.substring(0, r.lastIndexOf(' ')))
                .filter(size -> !List.of("18", "16").contains(size))
                .findFirst()
                .orElse(null);
    }
}
