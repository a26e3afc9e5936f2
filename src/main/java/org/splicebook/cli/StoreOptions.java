package org.splicebook.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which store. */
final class StoreOptions {
    @Option(
            names = "--data",
            paramLabel = "FOLDER",
            description = "The data folder; else $SPLICEBOOK_DATA, else ~/.local/share/splicebook.")
    private @Nullable Path data;

    @Option(
            names = "--neo4j",
            paramLabel = "URI",
            description = "A Neo4j server instead of the embedded one; else $SPLICEBOOK_NEO4J.")
    private @Nullable String neo4j;

    @Option(
            names = "--user",
            paramLabel = "NAME",
            description = "The user at that server; else $SPLICEBOOK_NEO4J_USER, else neo4j.")
    private @Nullable String user;

    @Option(
            names = "--password-file",
            paramLabel = "FILE",
            description = "A file with that user's password; else $SPLICEBOOK_NEO4J_PASSWORD_FILE.")
    private @Nullable Path passwordFile;

    @Option(
            names = "--queries",
            paramLabel = "FOLDER",
            description = "A folder of further questions, beside the folder queries of the data folder.")
    private List<Path> queries = new ArrayList<>();

    Program.StoreChoice choice() {
        return new Program.StoreChoice(data, neo4j, user, passwordFile, queries);
    }
}
