package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.graph.GraphRows.NodeRow;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.record.House;
import org.splicebook.store.Revision;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Loss;
import org.splicebook.wiring.Thing;
import org.splicebook.wiring.ThingKind;

class ProjectionTest {
    /** What exists by derivation only; everything else that a way passes must be what the record names. */
    private static final Set<String> DERIVED_ONLY = Set.of("Bus", "Lug", "Metal", "Bar");

    private static final Projection PROJECTION = new Projection(Derivation::derive);

    static Stream<House> houses() throws IOException {
        Stream<House> random = LongStream.range(0, 12).mapToObj(seed -> RandomHouses.house(seed, Shape.SMALL));
        try (Stream<Path> files = Files.list(Path.of("src/test/resources/org/splicebook/golden"))) {
            List<House> golden = files.filter(f -> f.toString().endsWith(".house.yaml"))
                    .sorted()
                    .map(f -> HouseFiles.read(f).get())
                    .toList();
            return Stream.concat(golden.stream(), random);
        }
    }

    @ParameterizedTest
    @MethodSource("houses")
    void whatIsDerivedMeetsWhatIsRecordedByName(House house) {
        for (NodeRow n : rows(house).nodes()) {
            // A main may be said to have fewer poles than its supply: those are its poles by derivation.
            boolean isMainPole = String.valueOf(n.properties().get("name")).matches(".*\\.main-[1-3]");
            boolean isSupplyThatNobodyRecorded = "?".equals(n.properties().get("name"));
            if (n.others().contains(RowBuilder.THING)
                    && !DERIVED_ONLY.contains(n.label())
                    && !isMainPole
                    && !isSupplyThatNobodyRecorded) {
                assertThat(n.properties()).as("%s: %s", house.id(), n.said()).hasSizeGreaterThan(3);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("houses")
    void everyNodeHasALabelThatTheSchemaKnowsAndAKeyOfItsOwn(House house) {
        Set<String> keys = new HashSet<>();
        for (NodeRow n : rows(house).nodes()) {
            assertThat(Schema.labels()).contains(n.label());
            assertThat(keys.add(n.said())).as(n.said()).isTrue();
        }
    }

    @Test
    void thingsThatChangeTheSameLoadPointsShareOneLoss() {
        GraphRows rows = rows(TestHouses.workshop("alder", "Alder"));
        long losses =
                rows.nodes().stream().filter(n -> n.label().equals("Loss")).count();
        long things =
                rows.ties().stream().filter(t -> t.type().equals("IF_LOST")).count();
        assertThat(losses).isPositive().isLessThan(things / 2);
    }

    @Test
    void eachEndOfAWireIsLostUnderItsOwnNumber() {
        House house = TestHouses.workshop("alder", "Alder");
        List<String> ends = Derivation.derive(house).losses().stream()
                .map(Loss::thing)
                .filter(t -> t.kind() == ThingKind.WIRE_END)
                .map(Thing::name)
                .toList();
        GraphRows rows = rows(house);
        assertThat(ends).anyMatch(e -> e.endsWith("@1")).anyMatch(e -> e.endsWith("@2"));
        assertThat(rows.ties().stream()
                        .filter(t -> "wire-end-lost".equals(t.properties().get("mode")))
                        .map(t -> rows.nodes().get(t.from()).properties().get("name") + "@"
                                + t.properties().get("end")))
                .containsExactlyInAnyOrderElementsOf(ends);
    }

    private static GraphRows rows(House house) {
        return PROJECTION.of(
                PROJECTION.derive(house), new Revision(house.id(), house.said(), 1, Instant.EPOCH, "", "", false, ""));
    }
}
