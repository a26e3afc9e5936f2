package org.splicebook.web;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;
import org.splicebook.panelplan.schedule.Goal;
import org.splicebook.panelplan.upgrade.Page;
import org.splicebook.panelplan.upgrade.Papers;
import org.splicebook.panelplan.upgrade.Prices;
import org.splicebook.panelplan.upgrade.UpgradePlan;
import org.splicebook.panelplan.upgrade.Upgrades;
import org.splicebook.panelplan.upgrade.Wanted;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Result;
import org.splicebook.rules.Packs;
import org.splicebook.store.StoredHouse;

/** Plans for new panels that are being made or were made lately; they stay here until they are kept as drafts or pushed out by others. */
final class PlanRuns {
    private static final int AT_ONCE = 1;
    private static final int WAITING = 8;
    private static final int REMEMBERED = 20;

    private final ExecutorService workers = Executors.newFixedThreadPool(AT_ONCE, work -> {
        Thread t = new Thread(work, "plan");
        t.setDaemon(true);
        return t;
    });
    private final Map<String, Running> all = new LinkedHashMap<>();

    /** How far a search is: of which goal, what was found, below which there is nothing. */
    record Step(Goal goal, long value, long bound) {}

    /**
     * What was made.
     *
     * @param plan the plan
     * @param pages its paper
     */
    record Made(UpgradePlan plan, List<Page> pages) {
        Made {
            pages = List.copyOf(pages);
        }
    }

    /** One plan. */
    static final class Running {
        private final String id = UUID.randomUUID().toString().substring(0, 13);
        private final StoredHouse house;
        private final Wanted wanted;
        private final Prices prices;
        private final Map<String, String> said;
        private volatile @Nullable Step step;
        private final CompletableFuture<Result<Made>> made = new CompletableFuture<>();

        private Running(StoredHouse house, Wanted wanted, Prices prices, Map<String, String> said) {
            this.house = house;
            this.wanted = wanted;
            this.prices = prices;
            this.said = Map.copyOf(said);
        }

        String id() {
            return id;
        }

        StoredHouse house() {
            return house;
        }

        /** {@return what the form held, to begin again from} */
        Map<String, String> said() {
            return said;
        }

        /** {@return how far it is, once it has begun} */
        Optional<Step> step() {
            return Optional.ofNullable(step);
        }

        /** {@return what was made, once it has ended} */
        Optional<Result<Made>> made() {
            return made.isDone() ? Optional.of(made.join()) : Optional.empty();
        }

        private void run() {
            try {
                Result<UpgradePlan> plan = Upgrades.plan(
                        house.house(),
                        Packs.of(house.house()),
                        wanted,
                        house.revision().number(),
                        (goal, value, bound) -> step = new Step(goal, value, bound));
                made.complete(plan.map(p -> new Made(p, Papers.of(p, prices))));
            } catch (RuntimeException e) {
                made.complete(Result.failed(Failures.problem(
                        ProblemKind.INTERNAL, "The plan failed: " + e + ".", "Ask for another, and tell of it.")));
            }
        }
    }

    /** Begins a plan, or lets it wait for those before it. */
    synchronized Running begin(StoredHouse house, Wanted wanted, Prices prices, Map<String, String> said) {
        long busy = all.values().stream().filter(r -> r.made().isEmpty()).count();
        if (busy >= AT_ONCE + WAITING) {
            throw Failures.failure(ProblemKind.CONFLICT, busy + " plans are made or wait already.", "Wait a minute.");
        }
        all.values().removeIf(r -> all.size() >= REMEMBERED && r.made().isPresent());
        Running r = new Running(house, wanted, prices, said);
        all.put(r.id(), r);
        workers.execute(r::run);
        return r;
    }

    /** {@return a plan of a house} */
    synchronized Running find(String house, String id) {
        Running r = all.get(id);
        if (r == null || !r.house().house().id().equals(house)) {
            throw Failures.failure(ProblemKind.NOT_FOUND, "There is no such plan, or no longer.", "Make it again.");
        }
        return r;
    }
}
