package org.splicebook.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.splicebook.ask.Sample.pearTree;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.answer.Answer;
import org.splicebook.answer.Reply;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;

/** What is asked again is told again, but never once anything is known that was not known then. */
class AnsweringStoreTest {
    private static final House HOUSE = pearTree();

    private static Reply ask(AnsweringStore store, String place) {
        return store.ask("dark", HOUSE.id(), Map.of("place", place)).get();
    }

    private static Sighting again(Sighting s) {
        return new Sighting(
                "again", s.date(), s.withOff(), s.levers(), s.instrument(), s.pass(), s.by(), s.seen(), s.note());
    }

    @Test
    void sameQuestionOfTheSameHouseIsComputedOnce() {
        try (AnsweringStore store = Sample.store(HOUSE)) {
            Reply first = ask(store, "kitchen");
            assertThat(ask(store, "kitchen")).isSameAs(first);
            assertThat(ask(store, "stairs")).isNotEqualTo(first);
        }
    }

    @Test
    void newSightingIsInTheNextAnswer() {
        try (AnsweringStore store = Sample.store(HOUSE)) {
            Answer before = (Answer) store.ask("evidence", HOUSE.id(), Map.of("at", "front-1.top"))
                    .get();
            Sighting one = HOUSE.sightings().stream()
                    .filter(s -> s.id().equals("s18"))
                    .findFirst()
                    .orElseThrow();
            store.appendSightings(HOUSE.id(), List.of(again(one))).get();
            Answer after = (Answer) store.ask("evidence", HOUSE.id(), Map.of("at", "front-1.top"))
                    .get();
            assertThat(before.rows().toString()).doesNotContain("again");
            assertThat(after.rows().toString()).contains("again");
        }
    }

    @Test
    void nextRevisionIsAnsweredFromItself() {
        try (AnsweringStore store = Sample.store(HOUSE)) {
            ask(store, "kitchen");
            store.put(HOUSE, 1, "Rowan", "nothing changed").get();
            assertThat(ask(store, "kitchen").heading().revision()).isEqualTo(2);
        }
    }
}
