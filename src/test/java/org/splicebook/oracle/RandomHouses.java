package org.splicebook.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.splicebook.oracle.Circuits.Spot;
import org.splicebook.oracle.HouseBuilder.OpenPanel;
import org.splicebook.record.CableKind;
import org.splicebook.record.House;
import org.splicebook.record.OvercurrentType;
import org.splicebook.record.Protection;
import org.splicebook.record.Provenance;
import org.splicebook.record.Source;
import org.splicebook.record.SourceKind;
import org.splicebook.record.SourceSystem;
import org.splicebook.record.SubBus;

/** Random houses, complete and fully known, with the arrangements that old houses hold. The same seed gives the same house. */
public final class RandomHouses {
    private final Random random;
    private final Shape shape;
    private final HouseBuilder house = new HouseBuilder();
    private final Circuits circuits;
    private final List<OpenPanel> panels = new ArrayList<>();
    private final Map<String, Integer> rows = new java.util.HashMap<>();
    private final OvercurrentType type;
    private int breakers;
    private int circuit;

    private RandomHouses(long seed, Shape shape) {
        this.random = new Random(seed * 7919 + 17);
        this.shape = shape;
        this.circuits = new Circuits(house, random);
        this.type = chance(0.12) ? OvercurrentType.FUSE : OvercurrentType.BREAKER;
    }

    /** {@return the house of that seed} */
    public static House house(long seed, Shape shape) {
        return new RandomHouses(seed, shape).make(seed);
    }

    private boolean chance(double p) {
        return random.nextDouble() < p;
    }

    private House make(long seed) {
        SourceSystem system = chance(0.85)
                ? SourceSystem.SPLIT_PHASE_120_240
                : List.of(SourceSystem.WYE_120_208, SourceSystem.WYE_120_208_TWO_LEGS, SourceSystem.SINGLE_230)
                        .get(random.nextInt(3));
        house.sources.put(
                "service",
                new Source("service", SourceKind.SERVICE, system, null, "main", null, null, Provenance.NONE));
        OpenPanel main = house.panel("main");
        main.supply.add("service");
        panels.add(main);
        if (chance(0.15) && type == OvercurrentType.BREAKER && system == SourceSystem.SPLIT_PHASE_120_240) {
            splitBus(main);
        } else if (chance(0.85)) {
            main.main = HouseBuilder.main(type);
        }
        if (chance(0.15) && system == SourceSystem.SPLIT_PHASE_120_240 && main.main != null) {
            generator(main);
        }
        while (circuits.loads < shape.loadPoints() && breakers < shape.breakers() - 2) {
            oneMore(system);
        }
        for (int i = 0; i < shape.oddities() && circuits.places.size() > 3; i++) {
            new Oddities(house, circuits, random).one();
        }
        return house.build("random-" + seed);
    }

    private void splitBus(OpenPanel main) {
        List<String> pair = pair(main);
        put(main, pair, Set.of());
        int row = rows.get("main");
        Set<String> spaces = new java.util.LinkedHashSet<>();
        for (int n = row * 2 + 1; n <= 84; n++) {
            spaces.add(String.valueOf(n));
            spaces.add(n + "a");
            spaces.add(n + "b");
        }
        main.buses.put("lower", new SubBus("lower", spaces, String.join("+", pair), Provenance.NONE));
        if (chance(0.5)) {
            return;
        }
        // A breaker ahead of the lower bus: the spaces after the first rows stay on it.
        List<String> upper = pair(main);
        spaces.removeAll(upper);
        main.buses.put("lower", new SubBus("lower", spaces, String.join("+", pair), Provenance.NONE));
        put(main, upper, Set.of());
        String box = house.box();
        String c = house.cable(CableKind.NM, "main", box, "black", "red", "bare");
        load240(main, box, c, upper);
    }

    private void generator(OpenPanel main) {
        String inlet = house.box("inlet");
        house.sources.put(
                "gen",
                new Source(
                        "gen",
                        SourceKind.GENERATOR,
                        SourceSystem.SPLIT_PHASE_120_240,
                        null,
                        null,
                        inlet,
                        null,
                        Provenance.NONE));
        List<String> pair = pair(main);
        put(main, pair, Set.of());
        String c = house.cable(CableKind.NM, inlet, "main", "black", "red", "white", "bare");
        house.joint(inlet, c + ".black", "gen.l1");
        house.joint(inlet, c + ".red", "gen.l2");
        house.joint(inlet, c + ".white", "gen.n");
        house.joint(inlet, c + ".bare", "gen.g");
        house.joint("main", c + ".black", pair.get(0));
        house.joint("main", c + ".red", pair.get(1));
        house.joint("main", c + ".white", "n");
        house.joint("main", c + ".bare", "g");
        main.exclusive.add(List.of("main", String.join("+", pair)));
    }

    /** Spaces by rows: the left and the right one of a row are on one leg. */
    private String single(OpenPanel p) {
        int n = rows.merge(p.name + "/single", 1, Integer::sum);
        if (n % 2 == 1) {
            int row = rows.merge(p.name, 1, Integer::sum);
            rows.put(p.name + "/row", row);
            return String.valueOf(row * 2 - 1);
        }
        return String.valueOf(rows.get(p.name + "/row") * 2);
    }

    private List<String> pair(OpenPanel p) {
        int row = rows.merge(p.name, 2, Integer::sum);
        return List.of(String.valueOf(row * 2 - 3), String.valueOf(row * 2 - 1));
    }

    private void put(OpenPanel p, List<String> spaces, Set<Protection> protects) {
        p.breakers.put(String.join("+", spaces), HouseBuilder.breaker(spaces, type, protects, chance(0.5)));
        if (type == OvercurrentType.FUSE && spaces.size() > 1 && chance(0.8)) {
            p.pullOuts.put("pull-" + spaces.get(0), spaces);
        }
        breakers++;
    }

    private Set<Protection> protects() {
        if (type == OvercurrentType.FUSE || chance(0.8)) {
            return Set.of();
        }
        return chance(0.4)
                ? Set.of(Protection.GROUND_FAULT)
                : chance(0.5) ? Set.of(Protection.ARC_FAULT) : Set.of(Protection.GROUND_FAULT, Protection.ARC_FAULT);
    }

    private void oneMore(SourceSystem system) {
        OpenPanel p = panels.get(random.nextInt(panels.size()));
        circuit++;
        int kind = random.nextInt(20);
        boolean twoLegs = system != SourceSystem.SINGLE_230;
        if (kind < 3 && twoLegs) {
            multiwire(p);
        } else if (kind == 3 && twoLegs) {
            List<String> pair = pair(p);
            put(p, pair, Set.of());
            String box = house.box();
            load240(p, box, house.cable(CableKind.NM, p.name, box, "black", "red", "bare"), pair);
        } else if (kind == 4 && twoLegs) {
            range(p);
        } else if (kind == 5 && panels.size() < 3 && p.name.equals("main")) {
            subpanel(p, twoLegs);
        } else if (kind == 6) {
            conduit(p);
        } else {
            String space = single(p);
            put(p, List.of(space), protects());
            boolean ground = chance(0.6);
            String box = house.box();
            String c = ground
                    ? house.cable(chance(0.2) ? CableKind.BX : CableKind.NM, p.name, box, "black", "white", "bare")
                    : house.cable(CableKind.NM, p.name, box, "black", "white");
            landHome(p, space, c + ".black", c + ".white", ground ? c + ".bare" : null);
            circuits.grow(
                    new Spot(box, c + ".black", c + ".white", ground ? c + ".bare" : null, circuit),
                    1 + random.nextInt(8));
        }
    }

    /** Lands a home run; a breaker's own neutral terminal is used, or now and then forgotten. */
    private void landHome(OpenPanel p, String space, String hot, String neutral, String ground) {
        house.joint(p.name, space, hot);
        boolean terminal = p.breakers.values().stream()
                .anyMatch(b -> b.neutralTerminal() && b.spaces().get(0).equals(space));
        house.joint(p.name, terminal && chance(0.85) ? space + ".neutral" : "n", neutral);
        if (ground != null) {
            house.joint(p.name, p.name.equals("main") && chance(0.4) ? "n" : "g", ground);
        }
    }

    private void multiwire(OpenPanel p) {
        List<String> spaces;
        int way = random.nextInt(6);
        if (way == 0) {
            String s = single(p);
            spaces = List.of(s + "a", s + "b");
            spaces.forEach(x -> put(p, List.of(x), Set.of()));
        } else if (way == 1) {
            spaces = List.of(single(p), single(p));
            spaces.forEach(x -> put(p, List.of(x), Set.of()));
        } else {
            spaces = pair(p);
            if (way <= 3) {
                put(p, spaces, way == 2 && type == OvercurrentType.BREAKER ? protects() : Set.of());
            } else {
                spaces.forEach(x -> put(p, List.of(x), Set.of()));
                if (way == 4) {
                    p.ties.add(spaces);
                }
            }
        }
        String box = house.box();
        String c = house.cable(CableKind.NM, p.name, box, "black", "red", "white", "bare");
        landHome(p, spaces.get(0), c + ".black", c + ".white", c + ".bare");
        house.joint(p.name, spaces.get(1), c + ".red");
        int other = ++circuit;
        if (chance(0.4)) {
            splitDuplex(box, c);
            return;
        }
        // Two runs part at the first box and share its neutral splice.
        HouseBuilder.OpenJoint neutral = house.joint(box, c + ".white");
        HouseBuilder.OpenJoint ground = house.joint(box, c + ".bare");
        var black = new Circuits.Place(box, house.joint(box, c + ".black"), neutral, ground, circuit - 1);
        var red = new Circuits.Place(box, house.joint(box, c + ".red"), neutral, ground, other);
        circuits.places.add(black);
        circuits.places.add(red);
        circuits.grow(circuits.extend(black), 1 + random.nextInt(4));
        circuits.grow(circuits.extend(red), 1 + random.nextInt(4));
    }

    private void splitDuplex(String box, String c) {
        String d = house.device(box, "duplex-receptacle", Map.of("hot", chance(0.1)));
        circuits.attach(house.joint(box, c + ".black"), d + ".top.hot");
        circuits.attach(house.joint(box, c + ".red"), d + ".bottom.hot");
        circuits.attach(house.joint(box, c + ".white"), d + ".top.neutral");
        circuits.attachGround(house.joint(box, c + ".bare"), d + ".ground");
        circuits.loads += 2;
    }

    private void load240(OpenPanel p, String box, String c, List<String> pair) {
        house.joint(p.name, c + ".black", pair.get(0));
        house.joint(p.name, c + ".red", pair.get(1));
        house.joint(p.name, c + ".bare", "g");
        int n = type == OvercurrentType.FUSE && chance(0.5) ? 2 : 1;
        HouseBuilder.OpenJoint black = house.joint(box, c + ".black");
        HouseBuilder.OpenJoint red = house.joint(box, c + ".red");
        HouseBuilder.OpenJoint bare = house.joint(box, c + ".bare");
        for (int i = 0; i < n; i++) {
            String d = house.device(box, "appliance-240");
            circuits.attach(black, d + ".hot-1");
            circuits.attach(red, d + ".hot-2");
            circuits.attachGround(bare, d + ".ground");
            circuits.loads++;
        }
    }

    private void range(OpenPanel p) {
        List<String> pair = pair(p);
        put(p, pair, protects());
        String box = house.box();
        String c = house.cable(CableKind.NM, p.name, box, "black", "red", "white", "bare");
        landHome(p, pair.get(0), c + ".black", c + ".white", c + ".bare");
        house.joint(p.name, pair.get(1), c + ".red");
        HouseBuilder.OpenJoint black = house.joint(box, c + ".black");
        HouseBuilder.OpenJoint neutral = house.joint(box, c + ".white");
        String d = house.device(box, "appliance-120-240");
        circuits.attach(black, d + ".hot-1");
        circuits.attach(house.joint(box, c + ".red"), d + ".hot-2");
        circuits.attach(neutral, d + ".neutral");
        circuits.attachGround(house.joint(box, c + ".bare"), d + ".ground");
        circuits.loads++;
        if (chance(0.4)) {
            // A lamp on one leg of it: pulled on one side only, it stays live through the range.
            String l = house.device(box, "luminaire");
            circuits.attach(black, l + ".hot");
            circuits.attach(neutral, l + ".neutral");
            circuits.loads++;
        }
    }

    private void subpanel(OpenPanel p, boolean twoLegs) {
        String name = "sub" + panels.size();
        OpenPanel sub = house.panel(name);
        panels.add(sub);
        List<String> spaces = twoLegs ? pair(p) : List.of(single(p));
        put(p, spaces, Set.of());
        sub.bonded = chance(0.3);
        if (chance(0.4) && twoLegs) {
            sub.main = HouseBuilder.main(type);
        }
        boolean disconnect = twoLegs && chance(0.25);
        String to = disconnect ? house.box() : name;
        String c = feeder(p.name, to);
        for (int i = 0; i < spaces.size(); i++) {
            house.joint(p.name, c + (i == 0 ? ".black" : ".red"), spaces.get(i));
        }
        house.joint(p.name, c + ".white", "n");
        house.joint(p.name, c + ".bare", "g");
        if (disconnect) {
            String d = house.device(to, "disconnect-2");
            String on = feeder(to, name);
            circuits.attach(house.joint(to, c + ".black"), d + ".line-1");
            circuits.attach(house.joint(to, c + ".red"), d + ".line-2");
            circuits.attach(house.joint(to, on + ".black"), d + ".load-1");
            circuits.attach(house.joint(to, on + ".red"), d + ".load-2");
            house.joint(to, c + ".white", on + ".white");
            house.joint(to, c + ".bare", on + ".bare");
            c = on;
        }
        house.joint(name, c + ".black", "line-1");
        if (twoLegs) {
            house.joint(name, c + ".red", "line-2");
        }
        house.joint(name, c + ".white", "n");
        house.joint(name, c + ".bare", "g");
        sub.supply.add(c);
    }

    private String feeder(String from, String to) {
        return house.cable(CableKind.SER, from, to, "black", "red", "white", "bare");
    }

    /** Two circuits in one raceway, wires of one colour told apart by name. */
    private void conduit(OpenPanel p) {
        String box = house.box();
        String c = house.cable(CableKind.EMT, p.name, box, "h1:black", "h2:black", "n1:white", "n2:white");
        house.joint(box, c + ".metal", "box");
        house.joint(p.name, c + ".metal", "box");
        boolean crossed = chance(0.3);
        for (int i = 1; i <= 2; i++) {
            String space = single(p);
            put(p, List.of(space), Set.of());
            house.joint(p.name, space, c + ".h" + i);
            house.joint(p.name, "n", c + ".n" + i);
            int n = crossed ? 3 - i : i;
            circuit++;
            circuits.grow(new Spot(box, c + ".h" + i, c + ".n" + n, null, circuit), 1 + random.nextInt(4));
        }
    }
}
