package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.splicebook.housefile.Kinds;
import org.splicebook.problem.Result;
import org.splicebook.record.Box;
import org.splicebook.record.Cable;
import org.splicebook.record.Device;
import org.splicebook.record.House;
import org.splicebook.record.Joint;
import org.splicebook.record.Move;
import org.splicebook.record.Provenance;
import org.splicebook.record.Ref;
import org.splicebook.rewire.Moves;

/** One random change of a house after another; most are bad wiring, which is recorded like any other. */
final class RandomMoves {
    private final Random random;

    RandomMoves(long seed) {
        this.random = new Random(seed);
    }

    /** What was done, and what came of it. */
    record Made(Move move, House house) {}

    /** {@return the house after one move that could be made; none where many tries failed} */
    Optional<Made> next(House house) {
        for (int i = 0; i < 200; i++) {
            Optional<Move> move = move(house);
            if (move.isPresent()) {
                Result<House> made = Moves.apply(house, move.get());
                if (made.isOk() && !made.get().equals(house)) {
                    return Optional.of(new Made(move.get(), made.get()));
                }
            }
        }
        return Optional.empty();
    }

    private Optional<Move> move(House house) {
        List<Box> boxes = List.copyOf(house.boxes().values());
        if (boxes.isEmpty()) {
            return Optional.empty();
        }
        Box box = one(boxes);
        List<String> ends = new ArrayList<>();
        for (Joint j : box.joints()) {
            j.members().stream()
                    .filter(Ref.WireEnd.class::isInstance)
                    .map(Ref::said)
                    .forEach(ends::add);
        }
        List<Device> devices = List.copyOf(box.devices().values());
        List<Cable> cables = List.copyOf(house.cables().values());
        return switch (random.nextInt(8)) {
            case 0 -> ends.isEmpty() ? Optional.empty() : Optional.of(new Move.Cap(box.name(), one(ends)));
            case 1 ->
                ends.size() < 2 ? Optional.empty() : Optional.of(new Move.Shift(box.name(), one(ends), one(ends)));
            case 2 ->
                ends.size() < 2
                        ? Optional.empty()
                        : Optional.of(new Move.Splice(box.name(), List.of(one(ends), one(ends)), null));
            case 3 ->
                devices.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new Move.Label(one(devices).name(), "word " + random.nextInt(1000)));
            case 4 ->
                devices.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new Move.RetireDevice(one(devices).name()));
            case 5 ->
                cables.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new Move.RetireCable(one(cables).name()));
            case 6 -> Optional.of(new Move.AddDevice(box.name(), receptacle("new-" + random.nextInt(100_000))));
            default -> cables.isEmpty() ? Optional.empty() : remark(one(cables));
        };
    }

    private Optional<Move> remark(Cable cable) {
        return cable.wires().isEmpty()
                ? Optional.empty()
                : Optional.of(new Move.Remark(
                        cable.name(), one(cable.wires()).name(), one(List.of("black", "blue", "yellow"))));
    }

    private static Device receptacle(String name) {
        return new Device(
                name,
                Objects.requireNonNull(Kinds.standard().get("duplex-receptacle")),
                null,
                Map.of(),
                Set.of(),
                null,
                null,
                null,
                Provenance.NONE);
    }

    private <T> T one(List<T> all) {
        return all.get(random.nextInt(all.size()));
    }
}
