package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.time.Clock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.wiring.Derivation;

class RemoteStoreIT extends HouseStoreContract {
    @Override
    OneDatabase database(ExtensionContext context) {
        return OneDatabase.remote(context);
    }

    @Test
    void aWrongPasswordAndAnAbsentServerAreTold(ExtensionContext context) {
        String uri = database(context).uri();
        assertAway(uri, "not the password", "refuses");
        assertAway("bolt://127.0.0.1:1", "any", "cannot be reached");
        assertAway("http://127.0.0.1:1", "any", "not one of a database");
        assertThat(database(context).store().health().kind()).isEqualTo("server");
    }

    private static void assertAway(String uri, String password, String words) {
        assertThatThrownBy(() -> Stores.server(
                        URI.create(uri), "neo4j", password, TestHouses.TEXT, Clock.systemUTC(), Derivation::derive))
                .isInstanceOfSatisfying(ProblemException.class, e -> {
                    assertThat(e.problems().get(0).kind()).isEqualTo(ProblemKind.STORE_AWAY);
                    assertThat(e.problems().get(0).message()).contains(words);
                });
    }
}
