package org.splicebook.web;

import com.github.benmanes.caffeine.cache.Caffeine;
import com.github.benmanes.caffeine.cache.LoadingCache;
import io.github.bucket4j.Bucket;
import java.time.Duration;
import org.splicebook.problem.ProblemKind;

/** How often an address may try. Addresses that were silent for a while are forgotten, and never more than so many are kept. */
final class Tries {
    private static final int MOST_ADDRESSES = 50_000;
    private static final Duration SILENT = Duration.ofMinutes(30);
    private static final int REQUESTS_AT_ONCE = 400;
    private static final int REQUESTS_A_SECOND = 100;
    private static final int SIGN_INS_AT_ONCE = 10;
    private static final Duration ONE_MORE = Duration.ofSeconds(20);

    private final LoadingCache<String, Bucket> requests =
            buckets(REQUESTS_AT_ONCE, REQUESTS_A_SECOND, Duration.ofSeconds(1));
    private final LoadingCache<String, Bucket> signIns = buckets(SIGN_INS_AT_ONCE, 1, ONE_MORE);

    private static LoadingCache<String, Bucket> buckets(int most, int more, Duration each) {
        return Caffeine.newBuilder()
                .maximumSize(MOST_ADDRESSES)
                .expireAfterAccess(SILENT)
                // By time that passes: a clock that is set back must not keep anybody out.
                .build(address -> Bucket.builder()
                        .withNanosecondPrecision()
                        .addLimit(limit -> limit.capacity(most).refillGreedy(more, each))
                        .build());
    }

    /** Counts a request; refuses it where there are too many. */
    void request(String address) {
        count(requests, address);
    }

    /** Counts a try to come in; refuses it where there are too many. */
    void signIn(String address) {
        count(signIns, address);
    }

    private static void count(LoadingCache<String, Bucket> buckets, String address) {
        if (!buckets.get(address).tryConsume(1)) {
            throw Failures.failure(
                    ProblemKind.TOO_MANY, "Too many requests came from this address.", "Wait a little and try again.");
        }
    }
}
