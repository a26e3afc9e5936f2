package org.splicebook.graph;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.splicebook.store.HouseStore;

class EveryStoreKeepsTheContractTest {
    @Test
    void eachWayToOpenAStoreHasATestOfTheContract() {
        Set<String> ways = Stream.of(Stores.class.getMethods())
                .filter(m ->
                        Modifier.isStatic(m.getModifiers()) && HouseStore.class.isAssignableFrom(m.getReturnType()))
                .map(Method::getName)
                .collect(Collectors.toSet());
        Set<String> tested = new ClassFileImporter()
                .importPackages("org.splicebook").stream()
                        .filter(c -> c.isAssignableTo(HouseStoreContract.class))
                        .map(JavaClass::getSimpleName)
                        .collect(Collectors.toSet());

        assertThat(ways).contains("embedded", "server");
        assertThat(tested).contains("BulkStoreIT");
        assertThat(ways).allSatisfy(way -> assertThat(tested).contains(testOf(way)));
    }

    @Test
    void thereIsNoOtherStore() {
        // The store over HTTP keeps nothing itself.
        assertThat(new ClassFileImporter()
                        .importPackages("org.splicebook.graph").stream()
                                .filter(c -> c.isAssignableTo(HouseStore.class) && !c.isInterface())
                                .map(JavaClass::getSimpleName))
                .containsExactly(Neo4jHouseStore.class.getSimpleName());
    }

    private static String testOf(String way) {
        return way.equals("server")
                ? "RemoteStoreIT"
                : way.substring(0, 1).toUpperCase(Locale.ROOT) + way.substring(1) + "StoreIT";
    }
}
