package org.splicebook.rules;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/** Every rule there is, by its id. What a pack says of them is in the pack. */
final class Rules {
    private static final Map<String, Rule> ALL = all();

    private Rules() {}

    private static Map<String, Rule> all() {
        Map<String, Rule> all = new LinkedHashMap<>();
        NeutralRules.add(all);
        SupplyRules.add(all);
        WireRules.add(all);
        ConnectionRules.add(all);
        ProtectionRules.add(all);
        ArcFaultRules.add(all);
        DeviceRules.add(all);
        GroundRules.add(all);
        SwitchRules.add(all);
        BoxRules.add(all);
        PanelRules.add(all);
        CircuitRules.add(all);
        LoadRules.add(all);
        MetricRules.add(all);
        return all;
    }

    /** {@return the ids of all rules} */
    static Set<String> ids() {
        return ALL.keySet();
    }

    /** {@return the rule of that id} */
    static Rule of(String id) {
        return Objects.requireNonNull(ALL.get(id), id);
    }
}
