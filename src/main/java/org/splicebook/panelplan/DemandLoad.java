package org.splicebook.panelplan;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One load of a calculation.
 *
 * @param name what it is called
 * @param kind how it counts
 * @param va its nameplate in volt-amperes; null where it is not known
 * @param isNew whether it is to be added
 * @param isMotor whether it is, or holds, a motor that counts as one
 * @param onNeutral whether it takes its current between a leg and the neutral
 * @param setPoint what an energy management system holds it to, in volt-amperes; null where none does
 */
public record DemandLoad(
        String name,
        Kind kind,
        @Nullable Double va,
        boolean isNew,
        boolean isMotor,
        boolean onNeutral,
        @Nullable Double setPoint) {
    /** How a load counts. */
    public enum Kind {
        /** Fastened in place: water heater, dishwasher, disposer, fixed fan. */
        APPLIANCE,
        /** Electric cooking. */
        RANGE,
        DRYER,
        /** The outdoor unit of an air conditioner. */
        COOLING,
        /** The outdoor unit of a heat pump: heats and cools. */
        HEAT_PUMP,
        /** Central electric heat, or the strips beside a heat pump. */
        STRIP_HEAT,
        /** Electric heat with a control of its own. */
        ROOM_HEATER,
        /** A blower that runs with heating and cooling alike. */
        AIR_HANDLER,
        /** Vehicle supply equipment. */
        VEHICLE;

        /** {@return the word of commands and data} */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        /** {@return the kind of that word, if there is one} */
        public static Optional<Kind> find(String word) {
            return Arrays.stream(values()).filter(k -> k.word().equals(word)).findFirst();
        }

        boolean isClimate() {
            return this == COOLING || this == HEAT_PUMP || heats() || this == AIR_HANDLER;
        }

        boolean heats() {
            return this == STRIP_HEAT || this == ROOM_HEATER;
        }
    }

    /** {@return what it counts: its set point where it is managed, else its nameplate, else nothing} */
    double counted() {
        double plate = va == null ? 0 : va;
        return setPoint == null ? plate : va == null ? setPoint : Math.min(setPoint, plate);
    }

    /** {@return whether nothing is known of how much it takes} */
    boolean isUnknown() {
        return va == null && setPoint == null;
    }

    /** {@return the same load, of another size} */
    public DemandLoad withVa(double other) {
        return new DemandLoad(name, kind, other, isNew, isMotor, onNeutral, setPoint);
    }

    /** {@return the same load, held to a set point in volt-amperes} */
    public DemandLoad heldTo(double point) {
        return new DemandLoad(name, kind, va, isNew, isMotor, onNeutral, point);
    }
}
