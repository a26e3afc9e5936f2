package org.splicebook.housefile;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.splicebook.record.Basis;
import org.splicebook.record.BoxPart;
import org.splicebook.record.Breaker;
import org.splicebook.record.CableKind;
import org.splicebook.record.Complete;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.Joint;
import org.splicebook.record.PlaceKind;
import org.splicebook.record.Protection;
import org.splicebook.record.Sighting;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.Wire;

/** The words of the house file for what is one of a few things. */
final class Words {
    static final Map<String, Basis> BASIS = of(Basis.values(), Basis::word);
    static final Map<String, Breaker.Position> POSITION = of(Breaker.Position.values(), Words::word);
    static final Map<String, CableKind> CABLE_KIND = of(CableKind.values(), CableKind::word);
    static final Map<String, Complete> COMPLETE = of(Complete.values(), Complete::word);
    static final Map<String, BoxPart.Kind> BOX_PART = of(BoxPart.Kind.values(), Words::word);
    static final Map<String, Joint.By> BY = of(Joint.By.values(), Joint.By::word);
    static final Map<String, PlaceKind> PLACE_KIND = of(PlaceKind.values(), PlaceKind::word);
    static final Map<String, Protection> PROTECTION = of(Protection.values(), Protection::word);
    static final Map<String, Sighting.Reading> READING = of(Sighting.Reading.values(), Sighting.Reading::word);
    static final Map<String, SourceKind> SOURCE_KIND = of(SourceKind.values(), SourceKind::word);
    static final Map<String, SourceSystem> SYSTEM = of(SourceSystem.values(), SourceSystem::word);
    static final Map<String, Wire.Material> MATERIAL = of(Wire.Material.values(), Words::word);
    static final Map<String, DeviceKind.Role> ROLE = of(DeviceKind.Role.values(), Words::word);
    static final Map<String, DeviceKind.Family> FAMILY = of(DeviceKind.Family.values(), Words::word);
    static final Map<String, DeviceKind.When> WHEN = of(DeviceKind.When.values(), Words::word);
    static final Map<String, DeviceKind.Reversed> REVERSED = of(DeviceKind.Reversed.values(), Words::word);
    static final Map<String, DeviceKind.LoadModel.Model> MODEL = of(DeviceKind.LoadModel.Model.values(), Words::word);

    /** What a breaker may do beside overcurrent. */
    static final Map<String, Protection> BESIDE_OVERCURRENT =
            of(new Protection[] {Protection.GROUND_FAULT, Protection.ARC_FAULT}, Protection::word);

    static final Map<String, Boolean> YES_NO = Map.of("yes", true, "no", false, "true", true, "false", false);
    static final Map<String, Boolean> IN_OUT = Map.of("in", true, "out", false);

    /** How sure a check may have been of a finding. */
    static final Map<String, String> CERTAINTY = Map.of("found", "found", "possible", "possible", "asked", "asked");

    private Words() {}

    /** {@return the constant's name as the house file writes it} */
    static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static <T> Map<String, T> of(T[] values, Function<T, String> word) {
        Map<String, T> words = new LinkedHashMap<>();
        for (T v : values) {
            words.put(word.apply(v), v);
        }
        return words;
    }
}
