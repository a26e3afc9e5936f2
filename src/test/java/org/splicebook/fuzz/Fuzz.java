package org.splicebook.fuzz;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import org.splicebook.problem.ProblemException;

/** What the fuzzer calls: by its own convention one class with these two methods. */
public final class Fuzz {
    private static final Duration LONGEST = Duration.ofSeconds(5);

    private static final OperatingSystemMXBean MACHINE =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private static Target target = Target.HOUSE;

    private Fuzz() {}

    /** Takes the name of the target, and lets it load what it needs. */
    public static void fuzzerInitialize(String[] args) {
        target = Target.valueOf(args[0]);
        target.seeds().forEach(s -> run(target, s));
    }

    /** Runs the target on one input; whatever it throws but problems is a finding, and so is what takes long. */
    public static void fuzzerTestOneInput(byte[] input) {
        // Time of the processor, in all threads of this process: the machine may have other work.
        long start = MACHINE.getProcessCpuTime();
        run(target, input);
        Duration took = Duration.ofNanos(MACHINE.getProcessCpuTime() - start);
        if (took.compareTo(LONGEST) > 0) {
            throw new AssertionError("took " + took);
        }
    }

    static void run(Target target, byte[] input) {
        try {
            target.reader().read(input);
        } catch (ProblemException e) {
            if (e.problems().isEmpty()) {
                throw new AssertionError("refused without a word", e);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
