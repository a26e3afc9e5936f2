package org.splicebook.cli;

import java.nio.file.Path;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.splicebook.record.House;
import org.splicebook.rules.LocalPack;
import org.splicebook.rules.Pack;
import org.splicebook.rules.Packs;
import picocli.CommandLine.Option;

/** Which rules to check by. */
final class PackOptions {
    @Option(
            names = "--edition",
            paramLabel = "EDITION",
            description =
                    "2014, 2017, 2020, 2023, 2026, iec (230 V) or physics (hazards whatever the code); left out, what the record names.")
    private @Nullable String edition;

    @Option(
            names = "--local",
            paramLabel = "FILE",
            description =
                    "Local rules: a file that switches rules off or alters what they go by, each with its reason.")
    private @Nullable Path local;

    /** {@return the pack for a house; what is wrong with edition or local rules is told before the first house} */
    Function<House, Pack> packs() {
        LocalPack changes = local == null ? null : LocalPack.read(local).get();
        String word = edition != null || changes == null ? edition : changes.over();
        Pack fixed = word == null ? null : Packs.find(word).get();
        return house -> {
            Pack base = fixed == null ? Packs.of(house) : fixed;
            return changes == null ? base : changes.on(base).get();
        };
    }
}
