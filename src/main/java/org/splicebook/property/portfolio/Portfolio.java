package org.splicebook.property.portfolio;

import java.util.Locale;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.House;
import org.splicebook.record.Property;

/**
 * Properties of a hundred apartments each, in buildings of twenty, every building with risers, a house panel and stairs in a record of its
 * own. Nothing of it is kept: each house is made when it is asked for.
 *
 * @param seed another seed gives other apartments under the same names
 * @param units how many apartments
 */
public record Portfolio(long seed, int units) {
    /** Apartments in a building. */
    public static final int IN_BUILDING = 20;

    /** Buildings in a property. */
    public static final int BUILDINGS = 5;

    private static final int IN_PROPERTY = IN_BUILDING * BUILDINGS;

    /** {@return how many houses there are: apartments and common parts} */
    public int houses() {
        return units + (units + IN_BUILDING - 1) / IN_BUILDING;
    }

    /** {@return the ids of all houses, building by building, the common part of each first} */
    public Stream<String> ids() {
        return IntStream.range(0, houses()).mapToObj(this::id);
    }

    private String id(int i) {
        int building = i / (IN_BUILDING + 1);
        int at = i % (IN_BUILDING + 1);
        return at == 0 ? common(building) : unit(building * IN_BUILDING + at - 1);
    }

    /** {@return one house, by its place among {@link #ids}} */
    public House house(int i) {
        int building = i / (IN_BUILDING + 1);
        int at = i % (IN_BUILDING + 1);
        int unit = building * IN_BUILDING + at - 1;
        return at == 0
                ? common(building, lastIn(building) - building * IN_BUILDING)
                : MadeUnit.of(seed + unit, unit(unit), "Apartment " + at, 1 + (at - 1) / 4);
    }

    /** {@return the id of an apartment, from 0} */
    public String unit(int unit) {
        return String.format(Locale.ROOT, "%s-u%02d", stem(unit / IN_BUILDING), unit % IN_BUILDING + 1);
    }

    private String common(int building) {
        return stem(building) + "-common";
    }

    private static String stem(int building) {
        return String.format(Locale.ROOT, "p%03d-b%d", building / BUILDINGS + 1, building % BUILDINGS + 1);
    }

    private int lastIn(int building) {
        return Math.min(units, (building + 1) * IN_BUILDING);
    }

    /** {@return how many properties} */
    public int properties() {
        return (units + IN_PROPERTY - 1) / IN_PROPERTY;
    }

    /** {@return a property, from 0} */
    public Property property(int number) {
        String id = String.format(Locale.ROOT, "p%03d", number + 1);
        StringBuilder buildings = new StringBuilder("buildings:\n");
        StringBuilder commons = new StringBuilder("common:\n");
        StringBuilder units = new StringBuilder("units:\n");
        StringBuilder links = new StringBuilder("links:\n");
        StringBuilder meters = new StringBuilder("meters:\n");
        for (int b = number * BUILDINGS; b < (number + 1) * BUILDINGS && b * IN_BUILDING < this.units; b++) {
            String building = "b" + (b % BUILDINGS + 1);
            buildings.append("  %s: {name: Building %d}%n".formatted(building, b % BUILDINGS + 1));
            commons.append("  %s-common: {name: Cellar and stairs %d, house: %s, building: %s}%n"
                    .formatted(building, b % BUILDINGS + 1, common(b), building));
            for (int u = b * IN_BUILDING; u < lastIn(b); u++) {
                String at = String.format(Locale.ROOT, "u%02d", u % IN_BUILDING + 1);
                String key = building + "-" + at;
                units.append("  %s: {name: Apartment %d, house: %s, building: %s, level: %d}%n"
                        .formatted(key, u % IN_BUILDING + 1, unit(u), building, 1 + u % IN_BUILDING / 4));
                links.append(
                        "  - {from: %s-common, point: to-%s, to: %s, source: riser}%n".formatted(building, at, key));
                meters.append("  m-%s: {number: \"%06d\", counts: %s, in: %s, source: riser}%n"
                        .formatted(key, 100_000 + u, key, key));
            }
        }
        String text = "splicebook-property: 1\nproperty: " + id + "\nname: Row " + (number + 1)
                + "\ncomplete: [links]\nbasis: seen\n" + buildings + commons + units + links + meters;
        return PropertyFiles.parse(id, text).get().property();
    }

    private House common(int building, int many) {
        String id = common(building);
        StringBuilder breakers = new StringBuilder();
        StringBuilder landings = new StringBuilder();
        StringBuilder cables = new StringBuilder();
        StringBuilder boxes = new StringBuilder();
        StringBuilder neutrals = new StringBuilder("      - [n, H.white");
        StringBuilder grounds = new StringBuilder("      - [g, H.bare");
        for (int u = 1; u <= many + 1; u++) {
            boolean isHouse = u > many;
            String at = String.format(Locale.ROOT, "u%02d", u);
            String cable = isHouse ? "H" : "R" + u;
            int space = 4 * ((u - 1) / 2) + 1 + (u - 1) % 2;
            breakers.append("      %d+%d: {rating: %d A, label: %s}%n"
                    .formatted(space, space + 2, isHouse ? 40 : 60, isHouse ? "House panel" : "Apartment " + u));
            landings.append("      - [%d, %s.black]%n      - [%d, %s.red]%n".formatted(space, cable, space + 2, cable));
            cables.append("  %s: {kind: NM, wires: 6/3+ground, ends: [switch, %s], length: %d m}%n"
                    .formatted(cable, isHouse ? "house" : "meter-" + at, 2 + 2 * u));
            if (!isHouse) {
                neutrals.append(", ").append(cable).append(".white");
                grounds.append(", ").append(cable).append(".bare");
                boxes.append(("  meter-%s:%n    place: stairs%n    devices: {to-%s: {kind: boundary-120-240}}%n"
                                + "    joints: [[%s.black, to-%s.hot-1], [%s.red, to-%s.hot-2], [%s.white, to-%s.neutral],"
                                + " [%s.bare, to-%s.ground]]%n")
                        .formatted(at, at, cable, at, cable, at, cable, at, cable, at));
            }
        }
        String text = "splicebook: 1\nhouse: " + id + "\nname: Cellar and stairs\nbuilt: 1958\nbasis: seen\n"
                + "complete: [cables, joints, breakers, landings]\n"
                + "sources:\n  service: {system: split-phase 120/240, rating: 800 A, bond: switch}\n"
                + "places:\n  cellar: {kind: basement, level: 0}\n  stairs: {kind: stairs, level: 0-5}\n"
                + "panels:\n  switch:\n    place: cellar\n    supply: service\n    spaces: " + 4 * (many / 2 + 1)
                + "\n    breakers:\n" + breakers + "    joints:\n" + landings + neutrals + "]\n" + grounds + "]\n"
                + HOUSE_PANEL.formatted()
                + "cables:\n" + cables
                + "  S1: {kind: NM, wires: 14/2+ground, ends: [house, stair-light], length: 5 m}\n"
                + "  S2: {kind: NM, wires: 12/2+ground, ends: [house, laundry], length: 6 m}\n"
                + "boxes:\n" + boxes
                + "  stair-light: {place: stairs, devices: {stair-lamp: {kind: luminaire}}, joints: [[S1.black, stair-lamp.hot], [S1.white, stair-lamp.neutral], [S1.bare, stair-lamp.ground]]}\n"
                + "  laundry: {place: cellar, devices: {washer: {kind: single-receptacle}}, joints: [[S2.black, washer.hot], [S2.white, washer.neutral], [S2.bare, washer.ground]]}\n";
        return HouseFiles.parse(id, text).get();
    }

    private static final String HOUSE_PANEL = """
          house:
            place: cellar
            supply: H
            spaces: 6
            breakers:
              1: {rating: 15 A, label: Stair lights}
              2: {rating: 20 A, label: Laundry}
            joints:
              - [line-1, H.black]
              - [line-2, H.red]
              - [n, H.white, S1.white, S2.white]
              - [g, H.bare, S1.bare, S2.bare]
              - [1, S1.black]
              - [2, S2.black]
        """;
}
