package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** The machine's own Chromium, driven without a window. */
final class Chromium implements AutoCloseable {
    private static final List<String> NAMES = List.of("chromium", "chromium-browser", "google-chrome");
    private static final List<String> ARGUMENTS = List.of(
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync");

    final Browser browser;
    private final Playwright playwright;

    private Chromium(Path program) {
        this.playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        this.browser = playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(program)
                        .setHeadless(true)
                        .setArgs(ARGUMENTS));
    }

    /** {@return a running browser; without one the test is left out on a person's machine, and fails where CI is true} */
    static Chromium start() {
        Optional<Path> program = find();
        String how = "Chromium is missing: apt-get install chromium (or put one of " + NAMES + " on the PATH).";
        assertThat(program.isPresent() || !"true".equals(System.getenv("CI")))
                .as(how)
                .isTrue();
        assumeTrue(program.isPresent(), how);
        return new Chromium(program.get());
    }

    private static Optional<Path> find() {
        String path = System.getenv().getOrDefault("PATH", "");
        return NAMES.stream()
                .flatMap(n -> Arrays.stream(path.split(Pattern.quote(File.pathSeparator)))
                        .map(folder -> Path.of(folder, n)))
                .filter(Files::isExecutable)
                .findFirst();
    }

    @Override
    public void close() {
        playwright.close();
    }
}
