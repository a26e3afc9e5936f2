package org.splicebook.graph;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.util.List;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.splicebook.record.House;
import org.splicebook.store.HouseStore;

/** The contract with every first revision going in by the fast way. */
class BulkStoreIT extends HouseStoreContract {
    @Override
    OneDatabase database(ExtensionContext context) {
        return OneDatabase.embedded(context);
    }

    @Override
    HouseStore store(OneDatabase of) {
        HouseStore store = of.store();
        return (HouseStore) Proxy.newProxyInstance(
                HouseStore.class.getClassLoader(), new Class<?>[] {HouseStore.class}, (proxy, method, arguments) -> {
                    boolean isFirst = method.getName().equals("put")
                            && arguments[1].equals(0L)
                            && store.revisions(((House) arguments[0]).id()).isEmpty()
                            && !Thread.currentThread().getName().startsWith("pool-");
                    if (isFirst) {
                        return store.putAll(List.of((House) arguments[0]), (String) arguments[2], (String) arguments[3])
                                .map(r -> r.get(0));
                    }
                    try {
                        return method.invoke(store, arguments);
                    } catch (InvocationTargetException e) {
                        throw e.getCause();
                    }
                });
    }
}
