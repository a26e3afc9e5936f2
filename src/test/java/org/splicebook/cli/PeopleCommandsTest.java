package org.splicebook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.people.Visitor;
import org.splicebook.render.Json;

class PeopleCommandsTest {
    private final FakeProgram program = new FakeProgram();

    @Test
    void userIsAddedWithAMadePasswordThatLetsThemIn() {
        assertThat(program.run("user", "add", "rowan", "--role", "reader@pear,recorder@plum", "--json"))
                .isZero();
        String password = Json.read(program.out()).path("password").asText();
        assertThat(program.people().entrance().signIn("rowan", password, "").isOk())
                .isTrue();
        assertThat(program.run("user", "list")).isZero();
        assertThat(program.out())
                .contains("rowan", "reader@pear, recorder@plum")
                .doesNotContain(password);
        assertThat(program.run("user", "role", "rowan", "--role", "manager")).isZero();
        assertThat(program.run("user", "list", "--json")).isZero();
        assertThat(Json.read(program.out()).get(0).path("roles").toString()).isEqualTo("[\"manager\"]");
        assertThat(program.run("user", "remove", "rowan")).isZero();
        assertThat(program.run("user", "remove", "rowan")).isEqualTo(ExitCodes.NOT_FOUND);
    }

    @Test
    void passwordComesFromAFileAndIsNotPrinted(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("p"), "two owls and a ladder\n");
        assertThat(program.run("user", "add", "rowan", "--role", "reader", "--password-of", file.toString()))
                .isZero();
        assertThat(program.out()).doesNotContain("two owls", "shown this once");
        assertThat(program.people()
                        .entrance()
                        .signIn("rowan", "two owls and a ladder", "")
                        .isOk())
                .isTrue();
        Files.writeString(file, "short\n");
        assertThat(program.run("user", "password", "rowan", "--password-of", file.toString()))
                .isEqualTo(ExitCodes.FOUND);
    }

    @Test
    void whatIsMissingOrWrongIsSaid() {
        assertThat(program.run("user", "add")).isNotZero();
        assertThat(program.run("user", "add", "rowan")).isNotZero();
        assertThat(program.err()).contains("No role is said");
        assertThat(program.run("user", "add", "rowan", "--role", "king")).isNotZero();
        assertThat(program.err()).contains("'king' is not a role");
        assertThat(program.run("token", "add", "nobody", "--for", "x")).isNotZero();
        assertThat(program.people.users()).isEmpty();
    }

    @Test
    void tokenIsShownOnce() {
        program.run("user", "add", "rowan", "--role", "recorder");
        assertThat(program.run(
                        "token", "add", "rowan", "--for", "a script", "--at-most", "reader", "--days", "3", "--json"))
                .isZero();
        String token = Json.read(program.out()).path("token").asText();
        String id = Json.read(program.out()).path("id").asText();
        Visitor visitor = program.people().entrance().byToken(token);
        assertThat(visitor.grants()).extracting(g -> g.said()).containsExactly("reader");
        assertThat(program.run("token", "list")).isZero();
        assertThat(program.out()).contains(id, "a script").doesNotContain(token);
        assertThat(program.run("token", "remove", id)).isZero();
        assertThat(program.people().entrance().byToken(token)).isEqualTo(Visitor.NOBODY);
    }

    @Test
    void invitationHasAnAddressThatAPhoneReaches() {
        assertThat(program.run("invite", "pear")).isEqualTo(ExitCodes.REFUSED);
        assertThat(program.err()).contains("No server runs here that others reach");
        program.address = "http://192.168.1.20:7391";
        assertThat(program.run("invite", "pear", "--json")).isZero();
        String link = Json.read(program.out()).path("link").asText();
        assertThat(link).startsWith("http://192.168.1.20:7391/join/");
        String code = link.substring(link.lastIndexOf('/') + 1);
        Visitor in = program.people()
                .entrance()
                .byCookie(program.people().entrance().join(code, "").get().secret());
        assertThat(in.grants()).extracting(g -> g.said()).containsExactly("recorder@pear");
        assertThat(program.run(
                        "invite", "pear", "--days", "7", "--for", "a contractor", "--at", "https://wiring.test/"))
                .isZero();
        assertThat(program.out()).contains("https://wiring.test/join/", "\u2588");
        assertThat(program.people.invitations()).last().satisfies(i -> {
            assertThat(i.once()).isFalse();
            assertThat(i.grant().said()).isEqualTo("reader@pear");
        });
        assertThat(program.run("invite", "pear", "--role", "manager")).isEqualTo(ExitCodes.REFUSED);
        assertThat(program.run("audit")).isZero();
        assertThat(program.out()).contains("invited", "came in by");
    }
}
