package org.splicebook.web;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Set;
import java.util.regex.Pattern;
import org.splicebook.problem.Problem;
import org.splicebook.problem.ProblemException;
import org.splicebook.problem.ProblemKind;
import org.splicebook.problem.Where;

/**
 * Where and for whom the server listens.
 *
 * @param host the address to listen on
 * @param port the port; 0 lets the system choose
 * @param knownHosts further Host values that are answered, as the header has them ({@code name} or {@code name:port})
 * @param largestBody the most bytes a request body may have
 * @param version the program's version
 * @param door who is let in
 */
public record WebSettings(String host, int port, Set<String> knownHosts, int largestBody, String version, Door door) {
    /** Most bytes of a body unless told otherwise: 5 MB. */
    public static final int LARGEST_BODY = 5 * 1024 * 1024;

    private static final Pattern NUMERIC = Pattern.compile("[0-9.]+|\\[?[0-9a-fA-F:.]*:[0-9a-fA-F:.]*]?");

    public WebSettings {
        knownHosts = Set.copyOf(knownHosts);
        if (!door.login() && !isLoopback(host)) {
            throw new ProblemException(Problem.error(
                    ProblemKind.REFUSED,
                    Where.NOWHERE,
                    "Listening on '" + host + "' would let others in without telling who they are.",
                    "Use 127.0.0.1, ::1 or localhost, or have people sign in."));
        }
    }

    /** {@return settings for this machine only} */
    public static WebSettings onPort(int port, String version) {
        return new WebSettings("127.0.0.1", port, Set.of(), LARGEST_BODY, version, Door.OPEN);
    }

    /** {@return whether only this machine reaches the server} */
    public boolean isForThisMachine() {
        return isLoopback(host);
    }

    /** {@return whether an address is one of this machine alone} */
    public static boolean isLoopback(String host) {
        if (host.equals("localhost")) {
            return true;
        }
        try {
            return NUMERIC.matcher(host).matches()
                    && InetAddress.getByName(host).isLoopbackAddress();
        } catch (UnknownHostException e) {
            return false;
        }
    }
}
