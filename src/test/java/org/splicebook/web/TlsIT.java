package org.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.util.Base64;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.splicebook.problem.ProblemException;

class TlsIT {
    @TempDir
    static Path folder;

    private static Path certificate;
    private static Path key;
    private static HttpClient http;

    @BeforeAll
    static void make() throws Exception {
        Path p12 = folder.resolve("x.p12");
        String keytool =
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString();
        int code = new ProcessBuilder(
                        keytool,
                        "-genkeypair",
                        "-alias",
                        "x",
                        "-keyalg",
                        "EC",
                        "-dname",
                        "CN=wiring.test",
                        "-ext",
                        "SAN=ip:127.0.0.1",
                        "-storetype",
                        "PKCS12",
                        "-keystore",
                        p12.toString(),
                        "-storepass",
                        "only-for-a-test")
                .inheritIO()
                .start()
                .waitFor();
        assertThat(code).isZero();
        char[] secret = "only-for-a-test".toCharArray();
        KeyStore store = KeyStore.getInstance(p12.toFile(), secret);
        Certificate own = store.getCertificate("x");
        certificate = pem("cert.pem", "CERTIFICATE", own.getEncoded());
        key = pem("key.pem", "PRIVATE KEY", store.getKey("x", secret).getEncoded());
        KeyStore trusted = KeyStore.getInstance("PKCS12");
        trusted.load(null, null);
        trusted.setCertificateEntry("x", own);
        TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trust.init(trusted);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, trust.getTrustManagers(), null);
        http = HttpClient.newBuilder().sslContext(context).build();
    }

    private static Path pem(String name, String what, byte[] der) throws Exception {
        String text = "-----BEGIN " + what + "-----\n"
                + Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(der) + "\n-----END " + what + "-----\n";
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void serverSpeaksHttpsAndItsCookieGoesOverNothingElse() throws Exception {
        try (Closed closed = new Closed(new Door.Tls(certificate, key))) {
            closed.add("rowan", "reader");
            assertThat(closed.server.url()).startsWith("https://127.0.0.1:");
            HttpRequest signIn = HttpRequest.newBuilder(URI.create(closed.server.url() + "/login"))
                    .header("Origin", closed.server.url())
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString(
                            "name=rowan&password=" + URLEncoder.encode(Closed.PASSWORD, StandardCharsets.UTF_8)))
                    .build();
            HttpResponse<String> in = http.send(signIn, HttpResponse.BodyHandlers.ofString());
            assertThat(in.statusCode()).as(in.body()).isEqualTo(303);
            assertThat(in.headers().firstValue("Set-Cookie").orElse(""))
                    .startsWith("__Host-")
                    .contains("Secure", "HttpOnly", "SameSite=Strict", "Path=/");
            HttpRequest page = HttpRequest.newBuilder(URI.create(closed.server.url() + "/"))
                    .header("Cookie", Closed.cookie(in))
                    .build();
            HttpResponse<String> shown = http.send(page, HttpResponse.BodyHandlers.ofString());
            assertThat(shown.statusCode()).isEqualTo(200);
            assertThat(shown.headers().firstValue("Strict-Transport-Security")).isPresent();
            try (ServedStore owner = new ServedStore(URI.create(closed.server.commandUrl()), Closed.OWNER_KEY)) {
                assertThat(owner.listHouses())
                        .as("commands come in by their own way")
                        .isNotEmpty();
            }
        }
    }

    @Test
    void wrongCertificateOrKeyIsToldByItsFile() throws Exception {
        Path notOne = Files.writeString(folder.resolve("not.pem"), "nothing\n");
        assertThatThrownBy(() -> new Closed(new Door.Tls(notOne, key)))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("not.pem");
        assertThatThrownBy(() -> new Closed(new Door.Tls(certificate, notOne)))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("PKCS #8");
        assertThatThrownBy(() -> new Closed(new Door.Tls(certificate, folder.resolve("none.pem"))))
                .isInstanceOf(ProblemException.class)
                .hasMessageContaining("none.pem");
    }
}
