package org.splicebook.web;

import io.javalin.http.Context;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.splicebook.store.Revision;
import org.splicebook.store.StoredHouse;
import org.splicebook.web.view.HouseBar;

/**
 * What was just recorded, for the page that is shown next: its revision stands in the address that a form leads to, so that nothing of it is
 * kept. What this thread's request says of it is read by the bar of the page, as who the request is from is.
 */
final class Just {
    private static final String STORED = "stored";
    private static final ThreadLocal<Just> NOW = new ThreadLocal<>();

    private final long revision;
    private final String path;

    private Just(long revision, String path) {
        this.revision = revision;
        this.path = path;
    }

    /** From now on this thread works for that request. */
    static void enter(Context ctx) {
        String said = Objects.requireNonNullElse(ctx.queryParam(STORED), "");
        NOW.set(new Just(said.matches("[1-9][0-9]{0,8}") ? Long.parseLong(said) : 0, ctx.path()));
    }

    /** {@return the address with what was just recorded} */
    static String stored(String address, Revision made) {
        return address + (address.contains("?") ? "&" : "?") + STORED + "=" + made.number();
    }

    /** {@return what the page of a house tells of it; null where nothing was just recorded} */
    static HouseBar.@Nullable Recorded of(StoredHouse stored) {
        Just now = NOW.get();
        Revision newest = stored.revision();
        return now == null || now.revision == 0 || now.revision > newest.number()
                ? null
                : new HouseBar.Recorded(now.revision, newest.number(), newest.why(), now.path);
    }
}
