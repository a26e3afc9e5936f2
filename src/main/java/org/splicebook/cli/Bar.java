package org.splicebook.cli;

import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.jspecify.annotations.Nullable;
import org.splicebook.store.Progress;

/** Draws progress on standard error where a person looks on, and nothing where none does. */
final class Bar implements Progress, AutoCloseable {
    private final @Nullable ProgressBar bar;

    Bar(String task, Terminal terminal) {
        bar = terminal.attended()
                ? new ProgressBarBuilder()
                        .setTaskName(task)
                        .setStyle(ProgressBarStyle.ASCII)
                        .setConsumer(new ConsoleProgressBarConsumer(System.err, terminal.width()))
                        .build()
                : null;
    }

    @Override
    public void at(long done, long total, String what) {
        if (bar != null) {
            bar.maxHint(total).stepTo(done).setExtraMessage(what);
        }
    }

    @Override
    public void close() {
        if (bar != null) {
            bar.close();
        }
    }
}
