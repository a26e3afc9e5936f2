package org.splicebook.rewire;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.DraftFiles;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.HouseWriter;
import org.splicebook.housefile.Kinds;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.problem.Problem;
import org.splicebook.problem.Result;
import org.splicebook.record.Breaker;
import org.splicebook.record.Device;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;

/** What moves make of a house. */
class MovesTest {
    private static final String HOUSE = """
            splicebook: 1
            house: two-gang
            basis: seen
            sources: {service: {system: split-phase 120/240, bond: main}}
            places: {hall: {kind: hall}}
            panels:
              main:
                supply: service
                spaces: 12
                breakers: {1: {rating: 15 A}, 3: {rating: 15 A}}
                ties: [[1, 3]]
                joints: [[1, K1.black], [3, K1.red], [n, K1.white], [g, K1.bare]]
            cables:
              K1: {kind: NM, wires: 14/3+ground, ends: [main, gang]}
              K2: {kind: NM, wires: 14/2+ground, ends: [gang, far]}
            boxes:
              gang:
                place: hall
                devices: {gf: {kind: ground-fault-receptacle}}
                joints:
                  - [K1.black, gf.line.hot]
                  - [K1.red, K2.black]
                  - {join: [K1.white, K2.white], tail: gf.line.neutral, by: twist-on}
                  - {join: [K1.bare, K2.bare], tail: gf.ground, by: twist-on}
              far:
                place: hall
                devices: {end: {kind: duplex-receptacle}}
                joints: [[K2.black, end.hot], [K2.white, end.neutral], [K2.bare, end.ground]]
            """;

    private static House house() {
        return HouseFiles.parse("house", HOUSE).get();
    }

    private static List<Move> moves(String lines) {
        return DraftFiles.parse("draft", "draft: d\nhouse: two-gang\nmoves:\n" + lines.indent(2), house())
                .get()
                .draft()
                .moves();
    }

    /** What touches what, the order of joints and of their members left out. */
    private static Set<String> touching(House h) {
        Set<String> all = new TreeSet<>();
        h.boxes().values().forEach(b -> b.joints().forEach(j -> all.add(b.name() + said(j))));
        h.panels().values().forEach(p -> p.joints().forEach(j -> all.add(p.name() + said(j))));
        return all;
    }

    private static String said(Joint j) {
        return j.members().stream().map(Ref::said).sorted().collect(Collectors.joining(" ", ": ", ""));
    }

    @Test
    void aWireEndMovesToAnotherJoint() {
        House after = Moves.apply(house(), moves("- {move: K2.black, to: gf.load.hot, in: gang}"))
                .get();
        assertThat(touching(after)).contains("gang: K2.black gf.load.hot", "gang: K1.red");
    }

    @Test
    void aDeviceTakenOutPartsWhatItsScrewsHeldAndLeavesSplices() {
        House through = Moves.apply(house(), moves("- {move: K2.black, to: gf.line.hot, in: gang}"))
                .get();
        House after = Moves.apply(through, new Move.RetireDevice("gf")).get();
        assertThat(touching(after)).contains("gang: K1.black", "gang: K2.black", "gang: K1.white K2.white");
    }

    @Test
    void landingsFollowABreakerIntoItsNewSpaces() {
        House after = Moves.apply(
                        house(),
                        moves("- {panel: main, was: [1, 3], is: 6+8, as: {rating: 15 A, protects: [ground-fault]}}"))
                .get();
        assertThat(touching(after)).contains("main: 6 K1.black", "main: 8 K1.red");
        assertThat(after.panels().get("main").ties()).isEmpty();
    }

    @Test
    void aBreakerThatHoldsWiresIsNotRetired() {
        Result<House> after =
                Moves.apply(house(), moves("- {remark: white, of: K2, colour: black}\n- {panel: main, was: [3]}"));
        assertThat(after.problems()).singleElement().satisfies(p -> {
            assertThat(p.message()).isEqualTo("Move 2: On 3 lands K1.red, and no pole is left for it.");
            assertThat(p.where().path()).isEqualTo("moves[2]");
            assertThat(p.cure()).isEqualTo("Move or cap what lands there first.");
        });
    }

    @Test
    void aMoveAndItsInverseGiveTheSameHouse() {
        for (String pair : List.of(
                "- {swap-line-and-load: gf}\n- {swap-line-and-load: gf}",
                "- {tab: hot, of: end, is: out}\n- {tab: hot, of: end, is: in}",
                "- {untie: [1, 3], panel: main}\n- {tie: [1, 3], panel: main}",
                "- {cap: K1.red, in: gang}\n- {move: K1.red, to: K2.black, in: gang}",
                "- {move: K1.red, to: gf.load.hot, in: gang}\n- {move: K1.red, to: K2.black, in: gang}\n- {cap: gf.load.hot, in: gang}",
                "- {panel: main, was: [1], is: 5, as: {rating: 15 A}}\n- {panel: main, was: [5], is: 1, as: {rating: 15 A}}",
                "- {add-cable: K9, as: {kind: NM, wires: 14/2, ends: [gang, far]}}\n- {retire-cable: K9}",
                "- {add-box: new, as: {place: hall}}\n- {retire-box: new}",
                "- {add-device: x, in: far, as: {kind: duplex-receptacle}}\n- {retire-device: x}",
                "- {remark: white, of: K2, colour: black}\n- {remark: white, of: K2, colour: white}")) {
            House after = Moves.apply(house(), moves(pair)).get();
            Set<String> is = touching(after);
            is.remove("gang: gf.load.hot");
            assertThat(is).as(pair).isEqualTo(touching(house()));
            assertThat(after.cables().keySet()).isEqualTo(house().cables().keySet());
            assertThat(after.boxes().keySet()).isEqualTo(house().boxes().keySet());
        }
    }

    @Test
    void aMoveFileIsReadWithItsPlacesAndWrittenBack() {
        List<Move> all = moves("""
                - {splice: [K1.red, K2.black, gf.load.hot], in: gang, by: lever}
                - {pigtail: end.top.hot, in: far}
                - {device: end, kind: ground-fault-receptacle, terminals: {top.hot: line.hot, top.neutral: line.neutral}}
                - {add-cable: K9, as: {kind: NM, wires: 12/2+ground, ends: [main, far], length: 9 m}}
                - {move: K9.white, to: n, in: main}
                - {panel: main, is: 5, as: {rating: 20 A, protects: [arc-fault], label: New}}
                - {move: K9.black, to: 5, in: main}
                """);
        Draft draft = new Draft("d", "two-gang", 7L, "so that it holds", all);
        assertThat(DraftFiles.parse("again", DraftFiles.write(draft), house())
                        .get()
                        .draft())
                .isEqualTo(draft);

        List<Problem> wrong = DraftFiles.parse(
                        "draft", "draft: d\nmoves:\n  - {cap: K1.red, at: gang}\n  - {lift: K1.red}\n", house())
                .problems();
        assertThat(wrong.stream().map(p -> p.where().said()).distinct())
                .containsExactly("draft:3:5", "draft:3:19", "draft:4:5");
    }

    /** Any moves at all: those that can be made leave a house that the reader takes and reads back the same. */
    @ParameterizedTest
    @ValueSource(longs = {0, 100, 200, 300})
    void randomMovesLeaveAHouseThatTheReaderAccepts(long first) {
        int made = 0;
        for (long seed = first; seed < first + 25; seed++) {
            House h = RandomHouses.house(seed, Shape.SMALL);
            Random random = new Random(seed);
            List<Move> done = new ArrayList<>();
            for (int i = 0; i < 12; i++) {
                Move m = random(h, random, i);
                Result<House> after = Moves.apply(h, m);
                if (!after.isOk()) {
                    continue;
                }
                h = after.get();
                done.add(m);
                made++;
                Result<House> read = HouseFiles.parse("house", HouseWriter.write(h));
                assertThat(read.problems()).as("seed %d after %s", seed, done).isEmpty();
                assertThat(touching(read.get()))
                        .as("seed %d after %s", seed, done)
                        .isEqualTo(touching(h));
            }
        }
        assertThat(made).isGreaterThan(100);
    }

    private static Move random(House h, Random random, int i) {
        List<String> places = new ArrayList<>(h.boxes().keySet());
        places.addAll(h.panels().keySet());
        String in = any(places, random);
        List<Joint> joints = h.boxes().containsKey(in)
                ? h.boxes().get(in).joints()
                : h.panels().get(in).joints();
        List<String> members = joints.stream()
                .flatMap(j -> j.members().stream())
                .map(Ref::said)
                .distinct()
                .toList();
        List<Device> devices = h.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .toList();
        String device = devices.isEmpty() ? "none" : any(devices, random).name();
        String panel = any(new ArrayList<>(h.panels().keySet()), random);
        List<String> keys = new ArrayList<>(h.panels().get(panel).breakers().keySet());
        String cable = any(new ArrayList<>(h.cables().keySet()), random);
        String a = members.isEmpty() ? "box" : any(members, random);
        String b = members.isEmpty() ? "box" : any(members, random);
        return switch (random.nextInt(11)) {
            case 0, 1 -> new Move.Shift(in, a, b);
            case 2 -> new Move.Cap(in, a);
            case 3 -> new Move.Splice(in, List.of(a, b), null);
            case 4 -> new Move.Pigtail(in, a);
            case 5 -> new Move.SwapLineAndLoad(device);
            case 6 -> new Move.RetireDevice(device);
            case 7 -> new Move.RetireCable(cable);
            case 8 ->
                new Move.ChangeKind(
                        device,
                        any(List.copyOf(Kinds.standard().values()), random),
                        Map.of("hot", "line.hot", "neutral", "line.neutral"));
            case 9 ->
                new Move.AddDevice(
                        in,
                        new Device(
                                "new-" + i,
                                Kinds.standard().get("duplex-receptacle"),
                                null,
                                Map.of(),
                                Set.of(),
                                null,
                                null,
                                null,
                                Provenance.NONE));
            default -> breaker(panel, keys, random);
        };
    }

    private static Move breaker(String panel, List<String> keys, Random random) {
        int space = 1 + random.nextInt(40);
        Breaker is = new Breaker(
                List.of(String.valueOf(space)),
                org.splicebook.record.OvercurrentType.BREAKER,
                null,
                Set.of(),
                false,
                null,
                true,
                Breaker.Position.ON,
                null,
                Provenance.NONE);
        return new Move.ChangeBreaker(panel, keys.isEmpty() ? List.of() : List.of(any(keys, random)), is);
    }

    private static <T> T any(List<T> all, Random random) {
        return all.get(random.nextInt(all.size()));
    }
}
