package org.splicebook.ask;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.LongFunction;
import java.util.function.Supplier;
import org.splicebook.answer.Reply;
import org.splicebook.problem.Result;
import org.splicebook.record.House;
import org.splicebook.record.Sighting;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.wiring.Wiring;
import org.splicebook.wiring.evidence.Evidence;
import org.splicebook.wiring.shutoff.ShutOffs;

/** What was worked out of the houses asked about last, by revision and sightings: neither ever changes, so what is kept never goes stale. */
final class Kept {
    private final Function<House, Wiring> derivation;
    private final Cache<Key, Wiring> wirings;
    private final Cache<Seen, Standing> standings;
    private final Cache<Seen, ShutOffs> shutOffs;
    private final Cache<Seen, Evidence> evidences;

    private record Key(String house, long number, String digest) {
        static Key of(StoredHouse stored) {
            Revision r = stored.revision();
            return new Key(r.house(), r.number(), r.digest());
        }
    }

    private final Cache<Put, Reply> replies;

    /** What was asked of a revision with sightings, and on which day, since an answer may tell what is due. */
    private record Put(String question, Map<String, String> parameters, Seen seen, LocalDate day) {}

    /** A revision and sightings. */
    private record Seen(Key key, List<Sighting> sightings) {}

    Kept(int most, Function<House, Wiring> derivation) {
        this.derivation = derivation;
        this.wirings = Caffeine.newBuilder().maximumSize(most).build();
        this.standings = Caffeine.newBuilder().maximumSize(most).build();
        this.shutOffs = Caffeine.newBuilder().maximumSize(most).build();
        this.evidences = Caffeine.newBuilder().maximumSize(most).build();
        this.replies = Caffeine.newBuilder()
                .maximumWeight(Reply.ROWS_KEPT)
                .weigher((Put put, Reply reply) -> reply.weight())
                .build();
    }

    /** {@return what a question is answered with, of that revision and with these sightings; what fails may not fail again} */
    Result<Reply> reply(
            String question,
            Map<String, String> parameters,
            StoredHouse stored,
            List<Sighting> sightings,
            Supplier<Result<Reply>> computation) {
        Put put = new Put(
                question, parameters, new Seen(Key.of(stored), sightings), LocalDate.now(ZoneId.systemDefault()));
        Reply known = replies.getIfPresent(put);
        if (known != null) {
            return Result.ok(known);
        }
        Result<Reply> computed = computation.get();
        if (computed.isOk()) {
            replies.put(put, computed.get());
        }
        return computed;
    }

    /** {@return what is derived from that revision} */
    Wiring wiring(StoredHouse stored) {
        return wirings.get(Key.of(stored), k -> derivation.apply(stored.house()));
    }

    /** {@return which of these sightings stand with that revision} */
    Standing standing(
            StoredHouse stored,
            List<Sighting> sightings,
            Supplier<List<Revision>> revisions,
            LongFunction<Optional<StoredHouse>> read) {
        return standings.get(
                new Seen(Key.of(stored), sightings), k -> Standing.of(stored, revisions.get(), read, sightings));
    }

    /** {@return what must be off in that revision, target by target; one thread at a time may ask it} */
    ShutOffs shutOffs(StoredHouse stored, List<Sighting> standing) {
        return shutOffs.get(new Seen(Key.of(stored), standing), k -> ShutOffs.of(stored.house(), standing));
    }

    /** {@return what sightings show of that revision} */
    Evidence evidence(StoredHouse stored, List<Sighting> standing) {
        return evidences.get(new Seen(Key.of(stored), standing), k -> Evidence.of(stored.house(), standing));
    }
}
