package org.splicebook.rules;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.problem.Where;
import org.splicebook.record.House;

/** The packs that the program brings along. */
public final class Packs {
    /** The edition that a house is judged by where its record names none. */
    public static final int USUAL_EDITION = 2023;

    private static final String PHYSICS_ID = "physics";
    private static final String IEC_ID = "iec";
    private static final PackSource US = resource("us.yaml");
    private static final PackSource PHYSICS = resource("physics.yaml");
    private static final PackSource IEC = resource("iec.yaml");

    private Packs() {}

    /** {@return a number that differs when what the packs say does} */
    static int digest() {
        return List.of(US, PHYSICS, IEC).toString().hashCode();
    }

    /** {@return the editions of the US code that there are packs for} */
    public static List<Integer> editions() {
        return US.editions();
    }

    /** {@return the pack that a house's record asks for: that of its country and edition, else the usual one} */
    public static Pack of(House house) {
        if (house.code() != null && IEC.countries().contains(house.code().country())) {
            return iec();
        }
        int edition = USUAL_EDITION;
        if (house.code() != null && house.code().edition().matches("[0-9]{4}")) {
            int said = Integer.parseInt(house.code().edition());
            edition = editions().contains(said) ? said : USUAL_EDITION;
        }
        return us(edition);
    }

    /** {@return the pack of that word: an edition's year, {@code iec} or {@code physics}} */
    public static Result<Pack> find(String word) {
        if (word.equals(PHYSICS_ID)) {
            return Result.ok(physics());
        }
        if (word.equals(IEC_ID)) {
            return Result.ok(iec());
        }
        return editions().stream()
                .filter(e -> word.equals(String.valueOf(e)))
                .findFirst()
                .map(e -> Result.ok(us(e)))
                .orElseGet(() -> Result.failed(Problem.error(
                        ProblemKind.BAD_VALUE,
                        Where.field("edition"),
                        "There is no pack \"" + word + "\".",
                        "There are " + editions() + ", " + IEC_ID + " and " + PHYSICS_ID + ".")));
    }

    /** {@return the rules of an edition of the US code} */
    public static Pack us(int edition) {
        return new Pack("us-" + edition, US.title() + ", " + edition, edition, US.at(edition));
    }

    /** {@return the rules for homes on 230 V} */
    public static Pack iec() {
        return new Pack(IEC_ID, IEC.title(), null, IEC.at(0));
    }

    /** {@return the hazards that need no code} */
    public static Pack physics() {
        Map<String, RuleText> rules = new LinkedHashMap<>();
        US.at(PHYSICS.editions().get(0)).forEach((id, t) -> {
            if (t.hazard()) {
                rules.put(
                        id,
                        new RuleText(
                                id,
                                t.title(),
                                t.severity(),
                                true,
                                null,
                                "",
                                "",
                                t.cure(),
                                t.licensed(),
                                t.values(),
                                ""));
            }
        });
        return new Pack(PHYSICS_ID, PHYSICS.title(), null, rules);
    }

    /** {@return what a pack's code says of a rule that its edition does not have yet; null where it knows none} */
    static @Nullable RuleText whatever(Pack pack, String rule) {
        PackSource.RuleSource of = US.rules().get(rule);
        return of == null || pack.edition() == null ? null : of.at(rule, pack.edition());
    }

    /** {@return the values that a rule goes by in any pack and edition, with every word that they have} */
    static Map<String, Set<String>> values(String rule) {
        Map<String, Set<String>> all = new LinkedHashMap<>();
        for (PackSource pack : List.of(US, IEC)) {
            PackSource.RuleSource of = pack.rules().get(rule);
            if (of != null) {
                of.values().forEach((name, v) -> {
                    Set<String> words = all.computeIfAbsent(name, k -> new TreeSet<>());
                    v.said().values().forEach(words::addAll);
                });
            }
        }
        return all;
    }

    private static PackSource resource(String name) {
        return PackReader.parse(name, text(name)).get();
    }

    /** {@return the text of a file that lies beside the packs} */
    static String text(String name) {
        try (InputStream in = Packs.class.getResourceAsStream(name)) {
            return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
