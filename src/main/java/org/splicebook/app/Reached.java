package org.splicebook.app;

import java.io.UncheckedIOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.util.Comparator;
import java.util.Optional;
import org.splicebook.web.WebServer;
import org.splicebook.web.WebSettings;

/** Who reaches a server, and how. */
final class Reached {
    private Reached() {}

    /** {@return the address by which others reach it; empty where only this machine does} */
    static String address(WebSettings settings, WebServer web) {
        String scheme = settings.door().tls() == null ? "http://" : "https://";
        Optional<String> name = settings.knownHosts().stream().sorted().findFirst();
        if (name.isPresent()) {
            return (settings.isForThisMachine() ? "https://" : scheme) + name.get();
        }
        if (settings.isForThisMachine()) {
            return "";
        }
        try {
            InetAddress host = InetAddress.getByName(settings.host());
            String said = host.isAnyLocalAddress() ? onTheNetwork().orElse("") : host.getHostAddress();
            return said.isEmpty() ? "" : scheme + (said.contains(":") ? "[" + said + "]" : said) + ":" + web.port();
        } catch (UnknownHostException e) {
            return "";
        }
    }

    /** {@return this machine's address on the home network} */
    private static Optional<String> onTheNetwork() {
        try {
            return NetworkInterface.networkInterfaces()
                    .filter(Reached::isUp)
                    .flatMap(NetworkInterface::inetAddresses)
                    .filter(a -> a instanceof Inet4Address && !a.isLoopbackAddress() && !a.isLinkLocalAddress())
                    .min(Comparator.comparing(a -> a.isSiteLocalAddress() ? 0 : 1))
                    .map(InetAddress::getHostAddress);
        } catch (SocketException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean isUp(NetworkInterface network) {
        try {
            return network.isUp();
        } catch (SocketException e) {
            return false;
        }
    }

    /** {@return what whoever starts it has to know; empty where there is nothing} */
    static String caution(WebSettings settings) {
        return settings.isForThisMachine() || settings.door().tls() != null
                ? ""
                : "Careful: without --tls-certificate and --tls-key whoever is on the network can read passwords and what is"
                        + " sent. On a network that others use, give them, or put a proxy with HTTPS before it.";
    }
}
