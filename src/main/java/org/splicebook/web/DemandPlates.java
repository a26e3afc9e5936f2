package org.splicebook.web;

import io.javalin.http.Context;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import org.splicebook.panelplan.TellReader;
import org.splicebook.panelplan.Told;
import org.splicebook.problem.ProblemKind;
import org.splicebook.record.Box;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Quantity;
import org.splicebook.record.Unit;

/** Writes what people read off nameplates, and the floor area, into a record. */
final class DemandPlates {
    /** What the field of a device's plate begins with. */
    static final String PREFIX = "plate:";

    private DemandPlates() {}

    /** {@return the house with the plates and the floor area that were sent} */
    static House written(House house, Context ctx) {
        TellReader reader = new TellReader(house);
        for (String name : ctx.formParamMap().keySet()) {
            if (name.startsWith(PREFIX) && !Sent.field(ctx, name).isEmpty()) {
                reader.nameplate(name.substring(PREFIX.length()), Sent.field(ctx, name));
            }
        }
        String area = Sent.field(ctx, "area-measured");
        if (!area.isEmpty()) {
            reader.area(area);
        }
        Told told = reader.read().get();
        Double feet = told.area();
        if (told.nameplates().isEmpty() && feet == null) {
            throw Failures.failure(ProblemKind.MISSING, "Nothing was filled in.", "Write what a plate says.");
        }
        Map<String, Box> boxes = new LinkedHashMap<>();
        house.boxes().forEach((n, b) -> boxes.put(n, plates(b, told.nameplates())));
        House after = house.withParts(house.panels(), house.cables(), boxes);
        return feet == null ? after : after.withArea(quantity(feet, Unit.SQUARE_FOOT));
    }

    private static Box plates(Box box, Map<String, Double> plates) {
        if (box.devices().keySet().stream().noneMatch(plates::containsKey)) {
            return box;
        }
        Map<String, Device> devices = new LinkedHashMap<>();
        box.devices().forEach((n, d) -> {
            Double va = plates.get(n);
            devices.put(n, va == null ? d : d.withWatts(quantity(va, Unit.WATT)));
        });
        return box.withDevices(devices);
    }

    private static Quantity quantity(double amount, Unit unit) {
        return new Quantity(BigDecimal.valueOf(Math.round(amount)), unit);
    }
}
