package org.splicebook.graph;

import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Property;
import org.splicebook.store.RecordText;

/** Houses for tests, and the text that they are kept as. */
final class TestHouses {
    /** House files, as the program keeps records. */
    static final RecordText TEXT = new RecordText() {
        @Override
        public String write(House house) {
            return HouseWriter.write(house);
        }

        @Override
        public String writeProperty(Property property) {
            return PropertyFiles.write(property);
        }

        @Override
        public Property readProperty(String text) {
            return PropertyFiles.parse("test", text).get().property();
        }

        @Override
        public House read(String text) {
            return of(text);
        }

        @Override
        public String write(Draft draft) {
            return DraftFiles.write(draft);
        }

        @Override
        public Draft readDraft(String text) {
            return DraftFiles.parseKept(text).get();
        }
    };

    private TestHouses() {}

    /** {@return the house of a text} */
    static House of(String text) {
        return HouseFiles.parse("test", text).get();
    }

    /** {@return a workshop with a bench on a multiwire circuit and a bathroom behind the bench's breaker, under that name} */
    static House workshop(String id, String name) {
        return of(workshopText(id, name));
    }

    /** {@return the same with sightings, each a line of YAML} */
    static House workshop(String id, String name, String... sightings) {
        return of(workshopText(id, name) + "\nsightings:\n  - " + String.join("\n  - ", sightings));
    }

    private static String workshopText(String id, String name) {
        return """
            splicebook: 1
            house: %s
            name: %s
            built: 1958
            basis: seen
            complete: [cables, joints, breakers, landings]
            sources: {service: {system: split-phase 120/240, bond: main}}
            places:
              workshop: {name: Workshop, kind: workshop}
              bath: {name: Bath, kind: bathroom}
            panels:
              main:
                place: workshop
                supply: service
                spaces: 12
                main: {poles: 2, rating: 100 A}
                breakers: {1: {rating: 20 A, label: Bench}, 3: {rating: 20 A}, 6: {rating: 15 A, protects: [arc-fault]}}
                ties: [[1, 3]]
                joints: [[1, K1.black], [3, K1.red], [n, K1.white], [g, K1.bare], [6, K2.black], [6.neutral, K2.white]]
            cables:
              K1: {kind: NM, wires: 12/3+ground, ends: [main, bench], length: 9 m, since: 1987}
              K2: {kind: NM, wires: 14/2, ends: [main, vanity], length: 30 ft}
              K3: {kind: NM, wires: 14/2, ends: [vanity, "?"]}
            boxes:
              bench:
                place: workshop
                box: {material: steel, volume: 30.3 in3}
                devices: {bench-1: {kind: duplex-receptacle, tabs: {hot: out, neutral: in}}}
                joints:
                  - [K1.black, bench-1.top.hot]
                  - [K1.red, bench-1.bottom.hot]
                  - {join: [K1.white], tail: bench-1.neutral, by: lever}
                  - {join: [K1.bare, box], tail: bench-1.ground}
              vanity:
                place: bath
                devices: {bath-gf: {kind: ground-fault-receptacle}}
                joints:
                  - [K2.black, bath-gf.line.hot]
                  - [K2.white, bath-gf.line.neutral]
                  - [K3.black, bath-gf.load.hot]
                  - [K3.white, bath-gf.load.neutral]
            """.formatted(id, name);
    }
}
