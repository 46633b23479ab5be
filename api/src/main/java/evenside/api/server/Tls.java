package evenside.api.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Collections;
import org.eclipse.jetty.http.HttpVersion;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.KeyStoreScanner;
import org.eclipse.jetty.util.ssl.SslContextFactory;

/**
 * The certificate of the service and its private key. A file that is put in the place of the first
 * is taken without a restart.
 *
 * @param keyStore a PKCS#12 or JKS file
 * @param password opens it
 */
public record Tls(Path keyStore, String password) {
  private static final int LOOK_AGAIN_SECONDS = 60;

  /**
   * Opens the key store once, so that a start fails with the reason.
   *
   * @throws IllegalArgumentException if it cannot be opened, or holds no private key
   */
  public void check() {
    if (!Files.isReadable(keyStore)) {
      throw new IllegalArgumentException("the key store " + keyStore + " cannot be read");
    }
    try {
      KeyStore store = KeyStore.getInstance(keyStore.toFile(), password.toCharArray());
      boolean hasKey = false;
      for (String alias : Collections.list(store.aliases())) {
        hasKey |= store.isKeyEntry(alias);
      }
      if (!hasKey) {
        throw new IllegalArgumentException("the key store " + keyStore + " holds no private key");
      }
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalArgumentException(
          "the key store " + keyStore + " cannot be opened: " + e.getMessage(), e);
    }
  }

  /** A connector that speaks TLS 1.2 and 1.3. */
  ServerConnector connector(Server server, HttpConfiguration http) {
    SslContextFactory.Server context = new SslContextFactory.Server();
    context.setKeyStorePath(keyStore.toAbsolutePath().toString());
    context.setKeyStorePassword(password);
    context.setIncludeProtocols("TLSv1.3", "TLSv1.2");
    KeyStoreScanner scanner = new KeyStoreScanner(context);
    scanner.setScanInterval(LOOK_AGAIN_SECONDS);
    server.addBean(scanner);
    HttpConfiguration secure = new HttpConfiguration(http);
    // Which names are answered is HostRule's to say, whatever the certificate is for.
    secure.addCustomizer(new SecureRequestCustomizer(false));
    return new ServerConnector(
        server,
        new SslConnectionFactory(context, HttpVersion.HTTP_1_1.asString()),
        new HttpConnectionFactory(secure));
  }

  /** Without the password. */
  @Override
  public String toString() {
    return "Tls[" + keyStore + "]";
  }
}
