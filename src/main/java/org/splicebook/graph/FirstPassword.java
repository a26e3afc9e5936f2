package org.splicebook.graph;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.neo4j.configuration.Config;
import org.neo4j.configuration.GraphDatabaseSettings;
import org.neo4j.io.fs.DefaultFileSystemAbstraction;
import org.neo4j.kernel.impl.security.User;
import org.neo4j.server.security.SecureHasher;
import org.neo4j.server.security.SystemGraphCredential;
import org.neo4j.server.security.auth.CommunitySecurityModule;
import org.neo4j.server.security.auth.UserSerialization;

/** The password with which a database is made: salted and hashed, in the file that the database reads when it makes its first account. */
final class FirstPassword {
    private FirstPassword() {}

    /** Writes the file for the database with that home, which must not exist yet. */
    static void write(Path home, String secret) throws IOException {
        Path file = CommunitySecurityModule.getInitialUserRepositoryFile(
                Config.defaults(GraphDatabaseSettings.neo4j_home, home));
        Files.createDirectories(file.getParent());
        User user = new User(
                EmbeddedNeo4j.USER,
                null,
                SystemGraphCredential.createCredentialForPassword(
                        secret.getBytes(StandardCharsets.UTF_8), new SecureHasher()),
                false,
                false);
        try (DefaultFileSystemAbstraction files = new DefaultFileSystemAbstraction()) {
            new UserSerialization().saveRecordsToFile(files, file, List.of(user));
        }
    }
}
