package org.splicebook.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.cli.Program;
import org.splicebook.problem.ProblemException;

class ConfigurationTest {
    private static final Program.StoreChoice NOTHING = new Program.StoreChoice(null, null, null, null);
    private static final Program.Listen ANYHOW = new Program.Listen(null, null, List.of());

    private static Configuration with(Map<String, String> environment) {
        return new Configuration(environment, Path.of("/home/x"));
    }

    @Test
    void commandLineGoesBeforeEnvironmentAndEnvironmentBeforeDefault() {
        assertThat(with(Map.of()).data(NOTHING)).isEqualTo(Path.of("/home/x/.local/share/splicebook"));
        Configuration said = with(Map.of(Configuration.DATA, "/srv/houses", Configuration.PORT, "8000"));
        assertThat(said.data(NOTHING)).isEqualTo(Path.of("/srv/houses"));
        assertThat(said.data(new Program.StoreChoice(Path.of("/tmp/other"), null, null, null)))
                .isEqualTo(Path.of("/tmp/other"));
        assertThat(said.web(ANYHOW, "9", "").port()).isEqualTo(8000);
        assertThat(said.web(new Program.Listen(null, 0, List.of()), "9", "").port())
                .isZero();
    }

    @Test
    void withoutAnAddressTheStoreIsTheEmbeddedOne() {
        assertThat(with(Map.of()).server(NOTHING)).isEmpty();
        assertThat(with(Map.of(Configuration.NEO4J, " ")).server(NOTHING)).isEmpty();
    }

    @Test
    void serverWithoutAPasswordFileIsRefused() {
        assertThatThrownBy(() -> with(Map.of(Configuration.NEO4J, "bolt://x")).server(NOTHING))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining(Configuration.PASSWORD_FILE);
    }

    @Test
    void whereOthersReachItPeopleSignIn() {
        assertThat(with(Map.of()).web(ANYHOW, "9", "").door().login()).isFalse();
        for (String host : new String[] {"0.0.0.0", "::", "192.168.1.10", "wiring.test"}) {
            assertThat(with(Map.of(Configuration.HOST, host))
                            .web(ANYHOW, "9", "")
                            .door()
                            .login())
                    .as(host)
                    .isTrue();
        }
        assertThat(with(Map.of(Configuration.KNOWN_HOSTS, "wiring.test"))
                        .web(ANYHOW, "9", "")
                        .door()
                        .login())
                .as("others know it by a name")
                .isTrue();
        assertThat(with(Map.of(Configuration.LOGIN, "yes"))
                        .web(ANYHOW, "9", "")
                        .door()
                        .login())
                .isTrue();
    }

    @Test
    void certificateNeedsItsKey() {
        assertThatThrownBy(() -> with(Map.of(Configuration.TLS_KEY, "k.pem")).web(ANYHOW, "9", ""))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("only one is said");
    }

    @Test
    void portHasToBeOne() {
        assertThatThrownBy(() -> with(Map.of(Configuration.PORT, "70000")).web(ANYHOW, "9", ""))
                .isInstanceOf(ProblemException.class);
    }

    @Test
    void knownHostsAddUp() {
        assertThat(with(Map.of(Configuration.KNOWN_HOSTS, "a.test, b.test:80"))
                        .web(new Program.Listen(null, null, List.of("c.test")), "9", "")
                        .knownHosts())
                .containsExactlyInAnyOrder("a.test", "b.test:80", "c.test");
    }
}
