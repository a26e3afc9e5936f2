package org.splicebook.graph;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.splicebook.people.PeopleStore;
import org.splicebook.people.PeopleStoreContract;

@ExtendWith(HouseStoreContract.Context.class)
class Neo4jPeopleIT extends PeopleStoreContract {
    private OneDatabase database;

    @BeforeEach
    void begin(ExtensionContext context) {
        database = OneDatabase.embedded(context);
    }

    @Override
    protected PeopleStore empty() {
        database.empty();
        return database.store().people();
    }
}
