package org.splicebook.wiring;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is derived for one load point.
 *
 * @param id {@code bench-1.top}, or the device's name where it has one load point
 * @param device the device
 * @param box the box
 * @param place the place, if known
 * @param supply how it is fed as recorded
 * @param feeds every pole that may feed it
 * @param returns every bar over which it may return
 * @param grounds every ground bar that its ground terminal may reach
 * @param reliesOn what it relies on; derived when first looked at
 * @param protections what protects it
 */
public record LoadPointWiring(
        String id,
        String device,
        String box,
        @Nullable String place,
        Supply supply,
        List<Feed> feeds,
        List<Return> returns,
        List<Return> grounds,
        List<ReliesOn> reliesOn,
        List<ProtectedBy> protections) {
    public LoadPointWiring {
        feeds = List.copyOf(feeds);
        returns = List.copyOf(returns);
        grounds = List.copyOf(grounds);
        reliesOn = Later.copyOf(reliesOn);
        protections = List.copyOf(protections);
    }
}
