package org.splicebook.loadflow;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.housefile.PlainYaml;
import org.splicebook.record.OvercurrentType;

/** The figures of {@code trip-curves.yaml}. */
public final class TripCurves {
    private static final Map<String, TripCurve> CURVES = read();

    private TripCurves() {}

    /** {@return the curve of breakers or of fuses} */
    public static TripCurve of(OvercurrentType type) {
        return get(type == OvercurrentType.FUSE ? "fuse" : "thermal-magnetic");
    }

    /** {@return the curve of ground-fault units: class A, that protect people} */
    public static TripCurve groundFault() {
        return get("class-a");
    }

    /** {@return when a breaker or fuse opens at so many times its rating} */
    public static TripTime overload(OvercurrentType type, double multiple) {
        return Objects.requireNonNull(of(type).overload()).at(multiple);
    }

    /** {@return when a ground-fault unit opens at a residual in amperes} */
    public static TripTime residual(double amperes) {
        return Objects.requireNonNull(groundFault().residual()).at(amperes);
    }

    private static TripCurve get(String kind) {
        return Objects.requireNonNull(CURVES.get(kind), kind);
    }

    private static Map<String, TripCurve> read() {
        Map<String, TripCurve> curves = new LinkedHashMap<>();
        map(PlainYaml.typed(Tables.resource("trip-curves.yaml")))
                .forEach((kind, v) -> curves.put(String.valueOf(kind), curve(map(v))));
        return curves;
    }

    private static TripCurve curve(Map<?, ?> m) {
        return new TripCurve(
                String.valueOf(m.get("title")),
                String.valueOf(m.get("source")),
                m.containsKey("latest") ? overload(m) : null,
                m.containsKey("residual") ? residual(map(m.get("residual"))) : null);
    }

    private static TripCurve.Overload overload(Map<?, ?> m) {
        TripCurve.Magnetic magnetic = null;
        if (m.containsKey("magnetic")) {
            Map<?, ?> at = map(m.get("magnetic"));
            magnetic = new TripCurve.Magnetic(
                    number(at.get("may-above")), number(at.get("must-from")), number(at.get("within")));
        }
        return new TripCurve.Overload(points(m.get("earliest")), points(m.get("latest")), magnetic);
    }

    private static TripCurve.Residual residual(Map<?, ?> m) {
        return new TripCurve.Residual(
                number(m.get("holds-below")),
                number(m.get("must-from")),
                number(m.get("one-second-at")),
                number(m.get("exponent")),
                number(m.get("not-under")),
                number(m.get("quickest")));
    }

    private static List<TripCurve.Point> points(@Nullable Object list) {
        return ((List<?>) Objects.requireNonNull(list))
                .stream()
                        .map(p -> (List<?>) p)
                        .map(p -> new TripCurve.Point(number(p.get(0)), number(p.get(1))))
                        .toList();
    }

    private static double number(@Nullable Object o) {
        return ((Number) Objects.requireNonNull(o)).doubleValue();
    }

    private static Map<?, ?> map(@Nullable Object o) {
        return (Map<?, ?>) Objects.requireNonNull(o);
    }
}
