package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.splicebook.people.Estates;
import org.splicebook.people.MemoryPeople;
import org.splicebook.people.People;
import org.splicebook.people.Visitor;
import org.splicebook.people.Visitors;
import org.splicebook.store.MemoryFiles;
import org.splicebook.store.MemoryStore;

class AccessTableTest {
    /** Deliberately in no row: for the owner of the process alone. */
    private static final Set<String> OWNERS = Set.of("POST /api/v1/cypher");

    static List<Route> routes() {
        People people = new People(new MemoryPeople(), Clock.systemUTC(), Visitors::now, () -> {});
        Access access = new Access(Door.OPEN, people.entrance(), Estates.NONE);
        return WebServer.routes(
                new MemoryStore(),
                new MemoryFiles(),
                people,
                access,
                new Watch(new MemoryStore()),
                WebSettings.onPort(0, "9"));
    }

    @Test
    void everyRouteHasItsRowAndEveryRowItsRoute() {
        Set<String> routes = routes().stream().map(AccessTable::name).collect(Collectors.toSet());
        Set<String> named = new AccessTable().named();
        assertThat(routes.stream().filter(r -> !named.contains(r) && !OWNERS.contains(r)))
                .as("routes that web/access.yaml does not name: put each under the least role that may use it")
                .isEmpty();
        assertThat(named.stream().filter(n -> !routes.contains(n)))
                .as("rows of web/access.yaml that are of no route")
                .isEmpty();
    }

    @Test
    void whatTheTableDoesNotNameIsForTheOwnerAlone() {
        Route unknown = Route.get("/houses/{house}/none", ctx -> {});
        AccessTable table = new AccessTable();
        Visitor manager = new Visitor(
                "rowan",
                Visitor.Way.SESSION,
                List.of(org.splicebook.people.Grant.parse("manager").get()),
                "");
        assertThat(table.allows(unknown, manager, "alder", Estates.NONE)).isFalse();
        assertThat(table.allows(unknown, Visitor.NOBODY, "alder", Estates.NONE)).isFalse();
        assertThat(table.allows(unknown, Visitor.OWNER, "alder", Estates.NONE)).isTrue();
    }
}
