package org.splicebook.people;

class MemoryPeopleTest extends PeopleStoreContract {
    @Override
    protected PeopleStore empty() {
        return new MemoryPeople();
    }
}
