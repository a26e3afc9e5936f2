package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.SelectOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** One person at one screen, who looks at each page that they come to. */
final class Screen implements AutoCloseable {
    private static final Path PICTURES = Path.of("target", "screens");
    private static final int TALL = 844;
    /** What a machine busy with other work may take; nothing is judged by it. */
    private static final int SLOWEST_MILLIS = 60_000;

    private static final List<String> TAGS =
            List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");

    private static final String OVER_THE_EDGE = """
            () => document.scrollingElement.scrollWidth <= innerWidth ? '' : [...document.querySelectorAll('body *')]
              .filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('.wide'))
              .slice(0, 5).map(e => e.outerHTML.slice(0, 200)).join('; ') || 'something'
            """;

    final Page page;
    private final BrowserContext context;
    private final String walk;
    private final int width;
    private final List<String> broken = new ArrayList<>();
    private int looked;

    private Screen(BrowserContext context, String walk, int width) {
        this.context = context;
        this.walk = walk;
        this.width = width;
        this.page = context.newPage();
        page.onConsoleMessage(m -> {
            if (m.type().equals("error") && !m.text().startsWith("Failed to load resource")) {
                broken.add(page.url() + ": " + m.text());
            }
        });
        page.onResponse(r -> {
            // What is wrong with a form comes back with its status, whether a script sent it or not.
            boolean isForm = r.request().headers().containsKey("hx-request") && r.status() < 500;
            if (r.status() >= 400 && !isForm && !r.request().isNavigationRequest()) {
                broken.add(r.status() + " " + r.url());
            }
        });
        page.onRequest(r -> {
            if (!isHere(r.url())) {
                broken.add("asked another host: " + r.url());
            }
        });
    }

    private static boolean isHere(String url) {
        return url.startsWith("http://127.0.0.1:") || url.startsWith("data:") || url.startsWith("blob:");
    }

    /**
     * {@return a screen of that width, in CSS pixels}
     *
     * @param walk what its pictures are called
     * @param script whether the browser runs scripts
     */
    static Screen open(Browser browser, String url, String walk, int width, boolean script) {
        BrowserContext context = browser.newContext(new Browser.NewContextOptions()
                .setBaseURL(url)
                .setViewportSize(width, TALL)
                .setHasTouch(width < 500)
                .setJavaScriptEnabled(script));
        context.setDefaultTimeout(SLOWEST_MILLIS);
        return new Screen(context, walk, width);
    }

    /** Goes to a page by its address, as from a bookmark. */
    Screen to(String path) {
        page.navigate(path);
        return this;
    }

    /** Follows the link of these words. */
    Screen follow(String words) {
        link(words).click();
        return this;
    }

    Locator link(String words) {
        return page.getByRole(
                        AriaRole.LINK,
                        new Page.GetByRoleOptions().setName(words).setExact(true))
                .first();
    }

    /** Presses the button of these words. */
    Screen press(String words) {
        page.getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions().setName(words).setExact(true))
                .first()
                .click();
        return settled();
    }

    /** Waits for what a script sent, if one did. */
    Screen settled() {
        page.waitForFunction("() => !document.querySelector('.htmx-request, .htmx-swapping, .htmx-settling')");
        return this;
    }

    /** Types into what a form calls so. */
    Screen type(String label, String words) {
        page.locator("main").getByLabel(label).first().fill(words);
        return this;
    }

    /** Chooses from a list. */
    Screen choose(String label, String words) {
        page.locator("main").getByLabel(label).first().selectOption(new SelectOption().setLabel(words));
        return this;
    }

    /** Chooses one of a few. */
    Screen tick(String words) {
        page.getByText(words, new Page.GetByTextOptions().setExact(true))
                .first()
                .click();
        return this;
    }

    /** The same under a title. */
    Screen tickIn(String title, String words) {
        page.locator("fieldset", new Page.LocatorOptions().setHasText(title))
                .getByText(words, new Locator.GetByTextOptions().setExact(true))
                .first()
                .click();
        return this;
    }

    /** {@return the words of what has the focus} */
    String focused() {
        return page.evaluate("() => document.activeElement.innerText").toString();
    }

    /** Searches the house for words. */
    Screen find(String words) {
        page.getByRole(AriaRole.SEARCHBOX).fill(words);
        return press("Find");
    }

    /** The page says all of these. */
    Screen says(String... words) {
        assertThat(page.locator("main").innerText()).as(page.url()).contains(words);
        return this;
    }

    /** The page says none of these. */
    Screen saysNot(String... words) {
        assertThat(page.locator("main").innerText()).as(page.url()).doesNotContain(words);
        return this;
    }

    /** Looks at the page: axe finds nothing in light and dark, nothing hangs over the edge, a picture is kept. */
    Screen look(String name) {
        looked++;
        String file = walk + "-" + looked + "-" + name + "-" + width;
        picture(file);
        assertThat(page.evaluate(OVER_THE_EDGE).toString())
                .as("what hangs over the edge of %s", page.url())
                .isEmpty();
        assertThat(wrong(new AxeBuilder(page).withTags(TAGS).setLegacyMode(true)))
                .as("axe in light, %s", page.url())
                .isEmpty();
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
        assertThat(wrong(new AxeBuilder(page)
                        .withRules(List.of("color-contrast"))
                        .setLegacyMode(true)))
                .as("axe in dark, %s", page.url())
                .isEmpty();
        if (looked == 1) {
            picture(file + "-dark");
        }
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
        assertThat(broken).isEmpty();
        return this;
    }

    /** Keeps a picture, where nothing else can be looked at: a page without script. */
    Screen picture(String file) {
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(PICTURES.resolve(file + ".png"))
                .setFullPage(true));
        return this;
    }

    private static List<String> wrong(AxeBuilder axe) {
        return axe.analyze().getViolations().stream().map(Screen::said).toList();
    }

    private static String said(Rule r) {
        return r.getId() + ": " + r.getHelp() + " "
                + r.getNodes().stream()
                        .limit(3)
                        .map(n -> n.getHtml() + " " + n.getFailureSummary())
                        .toList();
    }

    @Override
    public void close() {
        context.close();
    }
}
