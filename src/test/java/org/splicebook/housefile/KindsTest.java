package org.splicebook.housefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.splicebook.record.DeviceKind;
import org.splicebook.record.DeviceKind.Role;
import org.splicebook.record.DeviceKind.When;

/** The list of kinds agrees with itself and with the trade. */
class KindsTest {
    static Stream<DeviceKind> kinds() {
        return Kinds.standard().values().stream();
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void everyTerminalThatAKindMentionsIsItsOwn(DeviceKind kind) {
        Set<String> mentioned = new HashSet<>(kind.screws().keySet());
        kind.aliases().values().forEach(a -> mentioned.add(a.terminal()));
        kind.tabs().forEach(t -> mentioned.addAll(Set.of(t.a(), t.b())));
        kind.links().forEach(l -> mentioned.addAll(Set.of(l.a(), l.b())));
        kind.loadPoints().forEach(p -> {
            p.pairs().forEach(x -> mentioned.addAll(Set.of(x.a(), x.b())));
            if (p.ground() != null) {
                mentioned.add(p.ground());
            }
        });
        if (kind.guard() != null) {
            mentioned.addAll(kind.guard().opens());
        }
        assertThat(kind.terminals().stream().map(DeviceKind.Terminal::name)).containsAll(mentioned);
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void aliasesNameTabsAndLinksNameLeversThatExist(DeviceKind kind) {
        kind.aliases().forEach((name, a) -> {
            assertThat(kind.findTerminal(name)).isEmpty();
            if (a.whileTab() != null) {
                assertThat(kind.tabs()).anyMatch(t -> t.name().equals(a.whileTab()));
            }
        });
        kind.links().stream()
                .filter(l -> l.when() == When.LEVER)
                .forEach(l -> assertThat(kind.levers())
                        .anyMatch(
                                v -> v.name().equals(l.lever()) && v.positions().containsAll(l.positions())));
        assertThat(kind.levers().isEmpty()).isEqualTo(kind.links().stream().noneMatch(l -> l.when() == When.LEVER));
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void whatAGuardOpensIsTheLineSideOfAGuardedLink(DeviceKind kind) {
        Set<String> lines = new HashSet<>();
        kind.links().stream().filter(l -> l.when() == When.GUARDED).forEach(l -> lines.add(l.a()));
        assertThat(kind.guard() == null).isEqualTo(lines.isEmpty());
        if (kind.guard() != null) {
            assertThat(lines).containsAll(kind.guard().opens());
            assertThat(kind.guard().functions()).isNotEmpty();
        }
    }

    @ParameterizedTest
    @MethodSource("kinds")
    void aYokeIsMetalJoinedToGround(DeviceKind kind) {
        kind.terminals().stream()
                .filter(t -> t.role() == Role.METAL)
                .forEach(t -> assertThat(kind.links())
                        .anyMatch(l -> l.when() == When.ALWAYS && l.a().equals(t.name()) && l.b().equals("ground")));
    }

    @Test
    void protectiveReceptaclesOpenBothWiresAndKeepTheirFaceBehindTheSensor() {
        for (String name : Set.of("ground-fault-receptacle", "arc-fault-receptacle", "dual-function-receptacle")) {
            DeviceKind kind = Kinds.standard().get(name);
            assertThat(kind.guard().opens()).containsExactlyInAnyOrder("line.hot", "line.neutral");
            assertThat(kind.guard().faceOnLoadSide()).isTrue();
            assertThat(kind.guard().reversed()).isEqualTo(DeviceKind.Reversed.UNKNOWN);
            assertThat(kind.loadPoints().get(0).pairs().get(0).a()).isEqualTo("load.hot");
        }
        assertThat(Kinds.standard().get("dead-front").loadPoints()).isEmpty();
    }

    @Test
    void aFourWaySwitchCrossesItsTravelersWithTheLeverDown() {
        assertThat(Kinds.standard().get("four-way-switch").links().stream()
                        .filter(l -> l.positions().contains("down"))
                        .map(l -> l.a() + "-" + l.b()))
                .containsExactly("a-1-b-2", "a-2-b-1");
    }

    @Test
    void theOldThreeWireReceptacleHasItsFrameOnTheNeutral() {
        DeviceKind kind = Kinds.standard().get("receptacle-120-240-old");
        assertThat(kind.loadPoints().get(0).ground()).isEqualTo("frame");
        assertThat(kind.links())
                .anyMatch(l -> l.when() == When.ALWAYS && Set.of(l.a(), l.b()).equals(Set.of("neutral", "frame")));
    }

    @Test
    void everyKindThatTheFormatNamesIsThere() {
        assertThat(Kinds.standard().keySet())
                .contains(
                        "duplex-receptacle",
                        "single-receptacle",
                        "receptacle-240",
                        "receptacle-120-240",
                        "receptacle-120-240-old",
                        "ground-fault-receptacle",
                        "arc-fault-receptacle",
                        "dual-function-receptacle",
                        "dead-front",
                        "single-pole-switch",
                        "double-pole-switch",
                        "three-way-switch",
                        "four-way-switch",
                        "dimmer",
                        "smart-switch",
                        "smart-switch-no-neutral",
                        "occupancy-switch",
                        "timer-switch",
                        "illuminated-switch",
                        "switch-and-receptacle",
                        "luminaire",
                        "fan",
                        "smoke-alarm",
                        "appliance-120",
                        "appliance-240",
                        "appliance-120-240",
                        "heater-120",
                        "heater-240",
                        "water-heater",
                        "condensing-unit",
                        "vehicle-charger",
                        "transformer",
                        "disconnect-1",
                        "disconnect-2");
    }
}
