package org.splicebook.rules.mutation;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.splicebook.record.House;

/** Random houses, each with one fault of its wiring, its devices or its breakers. */
public final class FaultyHouses {
    private FaultyHouses() {}

    /**
     * A house with a fault.
     *
     * @param fault what was done to it
     * @param house the record
     * @param findings what a check must find of it, by key
     */
    public record Faulty(String fault, House house, List<String> findings) {}

    /** {@return the house of that number; each kind of fault comes in turn} */
    public static Faulty of(int seed) {
        List<Break.Kind> kinds = Stream.of(WiringBreaks.all(), SharedBreaks.all(), PanelBreaks.all())
                .flatMap(List::stream)
                .filter(k -> !k.name().startsWith("label"))
                .toList();
        Break.Kind kind = kinds.get(seed % kinds.size());
        Break b = new Break(CleanHouse.of(seed), new Random(seed));
        kind.act().on(b);
        return new Faulty(
                kind.name(),
                b.house.house(),
                b.expected.stream().map(e -> e.rule() + "/" + e.subject()).toList());
    }
}
