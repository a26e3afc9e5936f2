package org.splicebook.loadflow;

import java.util.Map;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.Cable;
import org.splicebook.record.Wire;

/**
 * What a metre of a wire puts in the way of current.
 *
 * @param ohmsPerMetre resistance at 75 °C
 * @param reactancePerMetre reactance at 60 Hz, with its return close by
 * @param perDegree how the resistance grows with each degree, as a share of that at 75 °C
 */
public record Conductor(double ohmsPerMetre, double reactancePerMetre, double perDegree) {
    private static final double METRES_PER_1000_FT = 304.8;

    /** Sizes in a record are few; beyond so many unlike ones none more is kept. */
    private static final int MOST_KEPT = 500;

    private static final Map<Size, Conductor> KNOWN = new ConcurrentHashMap<>();
    private static final Map<Size, Double> LIMITS = new ConcurrentHashMap<>();

    /** A size as written, and a material. */
    private record Size(String size, boolean copper) {}

    /** {@return the ohms of so many metres at a temperature} */
    public double ohms(double metres, double celsius) {
        return ohmsPerMetre * metres * (1 + perDegree * (celsius - 75));
    }

    /**
     * {@return a wire of that size}
     *
     * @param size as in a house file: {@code 14}, {@code 2/0}, {@code 250 kcmil}, {@code 2.5 mm2}
     * @param material what it is of; copper where null
     */
    public static Conductor of(String size, Wire.@Nullable Material material) {
        Size asked = new Size(size, material == null || material == Wire.Material.COPPER);
        Conductor known = KNOWN.get(asked);
        if (known == null) {
            known = worked(asked);
            if (KNOWN.size() < MOST_KEPT) {
                KNOWN.put(asked, known);
            }
        }
        return known;
    }

    private static Conductor worked(Size asked) {
        String size = asked.size;
        String metal = asked.copper ? "copper" : "aluminium";
        double perDegree = Tables.number("temperature", metal);
        String plain = size.strip()
                .replace("AWG", "")
                .replace("kcmil", "")
                .replace("#", "")
                .strip();
        if (plain.endsWith("mm2") || plain.endsWith("mm²")) {
            double area =
                    Double.parseDouble(plain.substring(0, plain.length() - 3).strip());
            return new Conductor(
                    Tables.number("metric", metal) / area / 1000,
                    Tables.number("metric", "reactance-per-km") / 1000,
                    perDegree);
        }
        Map<String, String> row = Tables.rows("wires").get(plain);
        if (row == null) {
            return byArea(plain, metal, perDegree);
        }
        return new Conductor(
                number(row, metal) / METRES_PER_1000_FT, number(row, "reactance") / METRES_PER_1000_FT, perDegree);
    }

    /** Sizes that the table leaves out: by area from 14 AWG, gauge numbers by their law. */
    private static Conductor byArea(String size, String metal, double perDegree) {
        Map<String, String> known = Objects.requireNonNull(Tables.rows("wires").get("14"));
        double number = size.endsWith("/0")
                ? 1 - Double.parseDouble(size.substring(0, size.length() - 2))
                : Double.parseDouble(size);
        double area =
                number > 36 ? number * 0.5067 : Math.PI / 4 * Math.pow(0.127 * Math.pow(92, (36 - number) / 39), 2);
        return new Conductor(
                number(known, metal) * number(known, "area") / area / METRES_PER_1000_FT,
                number(known, "reactance") / METRES_PER_1000_FT,
                perDegree);
    }

    /** {@return what a wire may carry, in amperes; where its size is not recorded, that of the size taken} */
    static double limit(Wire w) {
        Size asked = new Size(
                w.size() == null ? Tables.text("silent", "size") : w.size(),
                w.material() == null || w.material() == Wire.Material.COPPER);
        Double known = LIMITS.get(asked);
        if (known == null) {
            known = limit(asked);
            if (LIMITS.size() < MOST_KEPT) {
                LIMITS.put(asked, known);
            }
        }
        return known;
    }

    private static double limit(Size asked) {
        String size = plain(asked.size);
        boolean copper = asked.copper;
        if (size.endsWith("mm2")) {
            double amperes = Tables.number("metric", "amperes-factor")
                    * Math.pow(area(size), Tables.number("metric", "amperes-power"));
            return copper ? amperes : amperes * 0.78;
        }
        Map<String, String> row = Tables.rows("wires").get(size);
        String said = row == null ? null : row.get(copper ? "copper-amperes" : "aluminium-amperes");
        return said == null ? 0 : Double.parseDouble(said);
    }

    private static String plain(String size) {
        return size.strip()
                .replace("AWG", "")
                .replace("kcmil", "")
                .replace("#", "")
                .replace("²", "2")
                .strip();
    }

    private static double area(String metric) {
        return Double.parseDouble(metric.substring(0, metric.length() - 3).strip());
    }

    private static double number(Map<String, String> row, String key) {
        return Double.parseDouble(Objects.requireNonNull(row.get(key), key));
    }

    /** {@return a cable's armour or raceway metal} */
    static Conductor metal(Cable cable) {
        String kind = cable.kind().word();
        double ohms = Tables.number("metal", Tables.has("metal", kind) ? kind : "other");
        return new Conductor(ohms / METRES_PER_1000_FT, 0, Tables.number("temperature", "copper"));
    }
}
