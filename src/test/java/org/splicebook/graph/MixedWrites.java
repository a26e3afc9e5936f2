package org.splicebook.graph;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.splicebook.drafts.DraftDesk;
import org.splicebook.housefile.PropertyFiles;
import org.splicebook.property.Properties;
import org.splicebook.record.Draft;
import org.splicebook.record.House;
import org.splicebook.record.Move;
import org.splicebook.record.Property;
import org.splicebook.record.Sighting;
import org.splicebook.store.HouseStore;
import org.splicebook.store.KeptDraft;
import org.splicebook.store.Paper;
import org.splicebook.store.Papers;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;

/** Random writes of all kinds, and what each must have left in the store once it was acknowledged. */
final class MixedWrites {
    private static final int HOUSES = 3;
    private static final String DRAFTED = "drafted";
    private static final Property ROW =
            PropertyFiles.parse("row", Properties.text("alder-row.yaml")).get().property();

    private final HouseStore store;
    private final DraftDesk desk;
    private final Random random;

    MixedWrites(HouseStore store, Random random) {
        this.store = store;
        this.desk = new DraftDesk(store);
        this.random = random;
    }

    /** Writes one thing; {@return what the store has acknowledged, in a line that {@link #isKept} reads} */
    String one() {
        return switch (random.nextInt(10)) {
            case 0 -> load();
            case 1 -> delete();
            case 2, 3 -> sighting();
            case 4, 5 -> draft();
            case 6 -> paper();
            case 7 -> property();
            default -> edit();
        };
    }

    private String name() {
        return Long.toString(random.nextLong(1L << 40) | 1L << 40, 36);
    }

    private StoredHouse house(String id) {
        return store.findHouse(id).orElseGet(() -> {
            store.put(TestHouses.workshop(id, "Begun"), 0, "writer", "").get();
            return store.findHouse(id).orElseThrow();
        });
    }

    private StoredHouse anyHouse() {
        return house("house-" + random.nextInt(HOUSES));
    }

    private String edit() {
        StoredHouse before = anyHouse();
        House house = TestHouses.workshop(before.house().id(), "Written " + name());
        return said(
                store.put(house, before.revision().number(), "writer", "edit").get());
    }

    private String load() {
        List<House> houses = new ArrayList<>();
        for (int i = random.nextInt(3); i >= 0; i--) {
            houses.add(TestHouses.workshop("loaded-" + name(), "Loaded"));
        }
        return store.putAll(houses, "writer", "load").get().stream()
                .map(MixedWrites::said)
                .collect(Collectors.joining(" "));
    }

    /** What was loaded goes again, so that the store stays small. */
    private String delete() {
        List<Revision> loaded = store.listHouses().stream()
                .filter(r -> r.house().startsWith("loaded-"))
                .toList();
        if (loaded.isEmpty()) {
            return load();
        }
        Revision r = loaded.get(random.nextInt(loaded.size()));
        return said(store.delete(r.house(), r.number(), "writer", "delete").get());
    }

    private String sighting() {
        StoredHouse house = anyHouse();
        List<Sighting> seen = new ArrayList<>();
        for (int i = random.nextInt(3); i >= 0; i--) {
            seen.add(new Sighting(
                    "s-" + name(),
                    "2026-05-17",
                    List.of("main.1"),
                    Map.of(),
                    null,
                    null,
                    "writer",
                    new Sighting.Traced("K1.black", "bench-1.top.hot", null),
                    null));
        }
        store.appendSightings(house.house().id(), seen).get();
        return seen.stream()
                .map(s -> "sighting " + house.house().id() + " " + s.id() + " -")
                .collect(Collectors.joining(" "));
    }

    private String draft() {
        house(DRAFTED);
        // Whatever was left half-way before, these can be done.
        List<Move> moves =
                List.of(new Move.Cap("bench", "K1.red"), new Move.Shift("bench", "K1.red", "bench-1.bottom.hot"));
        KeptDraft kept = desk.save(new Draft("d-" + name(), DRAFTED, null, null, moves), 0, "writer");
        if (random.nextBoolean()) {
            return "draft " + DRAFTED + " " + kept.name() + " 0";
        }
        Revision r = desk.enter(kept, kept.version(), 2, true, "writer", "2026-05-17");
        return said(r) + " draft " + DRAFTED + " " + kept.name() + " 2";
    }

    private String paper() {
        String house = anyHouse().house().id();
        String name = "visit-" + random.nextInt(3);
        long version = store.papers()
                .find(Papers.VISIT, house, name)
                .map(Paper::version)
                .orElse(0L);
        Paper now = store.papers()
                .append(Papers.VISIT, house, name, "line " + version, version, "writer")
                .get();
        return "paper " + house + " " + name + " " + now.version();
    }

    private String property() {
        long newest = store.properties()
                .find(ROW.id())
                .map(p -> p.revision().number())
                .orElse(0L);
        Revision r = store.properties().put(ROW, newest, "writer", "").get();
        return "property " + r.house() + " " + r.number() + " " + r.digest();
    }

    private static String said(Revision r) {
        return "revision " + r.house() + " " + r.number() + " " + r.digest();
    }

    /** {@return whether the store still has all that a line says} */
    static boolean isKept(HouseStore store, String line) {
        String[] said = line.split(" ");
        for (int i = 0; i < said.length; i += 4) {
            if (!isKept(store, said[i], said[i + 1], said[i + 2], said[i + 3])) {
                return false;
            }
        }
        return true;
    }

    private static boolean isKept(HouseStore store, String kind, String house, String name, String state) {
        return switch (kind) {
            case "revision" ->
                store.findRevision(house, Long.parseLong(name))
                                .filter(s -> s.revision().digest().equals(state))
                                .isPresent()
                        || store.revisions(house).stream()
                                .anyMatch(r -> r.deleted()
                                        && r.number() == Long.parseLong(name)
                                        && r.digest().equals(state));
            case "sighting" -> store.sightings(house).stream().anyMatch(s -> s.id().equals(name));
            case "draft" ->
                store.findDraft(house, name)
                        .filter(d -> d.state().done() == Integer.parseInt(state))
                        .isPresent();
            case "paper" ->
                store.papers()
                        .find(Papers.VISIT, house, name)
                        .filter(p -> p.version() >= Long.parseLong(state))
                        .isPresent();
            case "property" ->
                store.properties()
                        .findRevision(house, Long.parseLong(name))
                        .filter(p -> p.revision().digest().equals(state))
                        .isPresent();
            default -> throw new IllegalArgumentException(kind);
        };
    }
}
