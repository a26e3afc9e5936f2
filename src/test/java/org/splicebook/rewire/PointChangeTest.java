package org.splicebook.rewire;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.housefile.Kinds;
import org.splicebook.oracle.RandomHouses;
import org.splicebook.oracle.Shape;
import org.splicebook.problem.Result;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Ref;
import org.splicebook.wiring.Derivation;
import org.splicebook.wiring.Feed;
import org.splicebook.wiring.LoadPointWiring;
import org.splicebook.wiring.Wiring;

/** What a change is said to do, against both houses looked at by themselves. */
class PointChangeTest {
    /** A protective receptacle is one load point where a duplex was two: none of them is gone or new. */
    @Test
    void halvesThatBecomeOneAreComparedWithIt() throws IOException {
        String path = "/org/splicebook/golden/chain-on-duplex-screws.house.yaml";
        String text;
        try (InputStream in = PointChangeTest.class.getResourceAsStream(path)) {
            text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        House before = HouseFiles.parse(path, text).get();
        Device duplex = before.boxes().values().stream()
                .flatMap(b -> b.devices().values().stream())
                .filter(d -> d.kind().name().equals("duplex-receptacle"))
                .findFirst()
                .orElseThrow();
        Map<String, String> terminals = Map.of(
                "top.hot",
                "line.hot",
                "top.neutral",
                "line.neutral",
                "bottom.hot",
                "load.hot",
                "bottom.neutral",
                "load.neutral");
        Move there = new Move.ChangeKind(
                duplex.name(), Objects.requireNonNull(Kinds.standard().get("ground-fault-receptacle")), terminals);
        House after = Moves.apply(before, there).get();
        List<PointChange> changes = PointChange.between(Derivation.derive(before), Derivation.derive(after));
        assertThat(changes)
                .extracting(PointChange::point)
                .contains(duplex.name() + ".top")
                .doesNotContain(duplex.name());
        assertThat(changes).noneMatch(c -> c.before().isEmpty() || c.after().isEmpty());
        assertThat(changes)
                .anyMatch(c ->
                        c.what() == PointChange.What.PROTECTION && c.after().contains("ground-fault by"));
        Move back = new Move.ChangeKind(
                duplex.name(),
                duplex.kind(),
                Map.of(
                        "line.hot",
                        "top.hot",
                        "line.neutral",
                        "top.neutral",
                        "load.hot",
                        "bottom.hot",
                        "load.neutral",
                        "bottom.neutral"));
        assertThat(PointChange.between(
                        Derivation.derive(after),
                        Derivation.derive(Moves.apply(after, back).get())))
                .noneMatch(c -> c.before().isEmpty() || c.after().isEmpty());
    }

    /** Where nothing is said of a load point's feed, its poles are the same before and after; where something is, they or the way differ. */
    @ParameterizedTest
    @ValueSource(longs = {1, 101, 201, 301})
    void noChangeIsLeftOut(long first) {
        int changed = 0;
        for (long seed = first; seed < first + 15; seed++) {
            House before = RandomHouses.house(seed, Shape.SMALL);
            Random random = new Random(seed);
            for (int i = 0; i < 6; i++) {
                Result<House> made = Moves.apply(before, shift(before, random));
                if (!made.isOk()) {
                    continue;
                }
                Wiring was = Derivation.derive(before);
                Wiring is = Derivation.derive(made.get());
                Set<String> told = PointChange.between(was, is).stream()
                        .filter(c -> c.what() == PointChange.What.FEED)
                        .map(PointChange::point)
                        .collect(Collectors.toSet());
                Map<String, Set<Feed>> a = feeds(was);
                Map<String, Set<Feed>> b = feeds(is);
                for (String id : a.keySet()) {
                    boolean same = poles(a.get(id)).equals(poles(b.get(id)));
                    if (!same) {
                        assertThat(told).as("seed %d", seed).contains(id);
                        changed++;
                    } else if (told.contains(id)) {
                        assertThat(a.get(id)).as("seed %d, %s", seed, id).isNotEqualTo(b.get(id));
                    }
                }
            }
        }
        assertThat(changed).isPositive();
    }

    @ParameterizedTest
    @ValueSource(longs = {7, 8, 9})
    void aHouseAgainstItselfChangesNothing(long seed) {
        Wiring w = Derivation.derive(RandomHouses.house(seed, Shape.SMALL));
        assertThat(PointChange.between(w, w)).isEmpty();
        assertThat(CurrentChange.between(w.house(), w.house())).isEmpty();
    }

    private static Map<String, Set<Feed>> feeds(Wiring w) {
        return w.loadPoints().stream().collect(Collectors.toMap(LoadPointWiring::id, l -> Set.copyOf(l.feeds())));
    }

    private static Set<String> poles(Set<Feed> feeds) {
        return feeds.stream().map(f -> f.pole() + f.sureness()).collect(Collectors.toSet());
    }

    private static Move shift(House h, Random random) {
        List<String> places = new ArrayList<>(h.boxes().keySet());
        String in = places.get(random.nextInt(places.size()));
        List<String> members = h.boxes().get(in).joints().stream()
                .flatMap(j -> j.members().stream())
                .map(Ref::said)
                .distinct()
                .toList();
        if (members.size() < 2) {
            return new Move.Cap(in, "box");
        }
        return new Move.Shift(
                in, members.get(random.nextInt(members.size())), members.get(random.nextInt(members.size())));
    }
}
