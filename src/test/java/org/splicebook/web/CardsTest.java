package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.splicebook.housefile.HouseFiles;
import org.splicebook.record.House;
import org.splicebook.store.Files;
import org.splicebook.store.MemoryStore;
import org.splicebook.web.view.Card;
import org.splicebook.web.view.HouseBar;
import org.splicebook.web.view.Link;

class CardsTest {
    private static final House HOUSE = HouseFiles.read(Path.of("sample-house")).get();
    private static final MemoryStore STORE = new MemoryStore();
    private static final Look LOOK;

    static {
        STORE.put(HOUSE, 0, "Rowan", "new").get();
        LOOK = Look.of(STORE.findHouse(HOUSE.id()).orElseThrow());
    }

    private final Paths paths = new Paths(HOUSE.id());
    private final Cards cards = new Cards(LOOK, paths, HOUSE.sightings(), Files.NONE);
    private final Finder finder = new Finder(LOOK, paths);

    private Card card(Link link) {
        String[] parts = link.to().split("/");
        return cards.of(parts[3], URLDecoder.decode(parts[4].replace("+", "%2B"), StandardCharsets.UTF_8));
    }

    @Test
    void everyThingOfTheSampleHouseHasACardWithWhatToDoNextAndCautions() {
        List<Link> all = finder.all();
        assertThat(all).hasSizeGreaterThan(350);
        for (Link link : all) {
            Card card = card(link);
            assertThat(card).as(link.to()).isNotNull();
            assertThat(card.next()).as(link.to()).isNotEmpty();
            assertThat(card.cautions()).as(link.to()).isNotEmpty();
            String page = Templates.page("card", Map.of("bar", new HouseBar("/x", "x", 1), "card", card));
            assertThat(page).as(link.to()).contains("</html>");
        }
    }

    @Test
    void aPointWhoseFeedIsNotShownIsNeverCalledFedOrOff() {
        LOOK.points().values().stream()
                .filter(l -> l.feeds().stream().allMatch(f -> f.sureness() == org.splicebook.wiring.Sureness.MAY))
                .forEach(l -> assertThat(cards.of("points", l.id()).lead())
                        .as(l.id())
                        .doesNotContain("Fed by")
                        .satisfies(s -> assertThat(l.feeds().isEmpty() || s.contains("not excluded: test"))
                                .isTrue()));
    }

    @Test
    void aPointOnTwoBreakersSaysThatOneOffIsNotEnough() {
        assertThat(cards.of("boxes", "bench-left").lead()).contains("2 poles are hot in it");
        assertThat(LOOK.points().values().stream()
                        .map(l -> cards.of("points", l.id()).lead()))
                .noneMatch(s ->
                        s.contains(" and ") && !s.contains("one of them off is not enough") && s.startsWith("Fed by"));
    }

    @Test
    void namesThatBeginSoAreFoundFirst() {
        assertThat(finder.search("bath"))
                .first()
                .satisfies(l -> assertThat(l.words()).startsWithIgnoringCase("bath"));
        assertThat(finder.search("BATH-1 load")).extracting(Link::words).contains("bath-1.top", "bath-1.bottom");
        assertThat(finder.search("  ")).isEmpty();
    }
}
