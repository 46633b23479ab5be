package evenside.api.http;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import java.time.Duration;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.GracefulHandler;

/** The web server around the routes. */
public final class Server {
  private static final int MAX_CONNECTIONS = 200;
  private static final Duration STOP_TIMEOUT = Duration.ofSeconds(10);

  private Server() {}

  /** The server, not yet started. */
  public static Javalin create(Dispatcher dispatcher, Front front) {
    return Javalin.create(
        config -> {
          config.startup.showJavalinBanner = false;
          config.startup.startupWatcherEnabled = false;
          config.http.prefer405over404 = true;
          // A compressed form would need an entity tag and a digest of its own.
          config.http.compressionStrategy = CompressionStrategy.NONE;
          config.router.ignoreTrailingSlashes = false;
          config.router.javaLangErrorHandler(Dispatcher::fail);
          configureJetty(config, front);
          front.tls().ifPresent(tls -> speakTls(config, tls));
          dispatcher.register(config);
        });
  }

  private static void configureJetty(JavalinConfig config, Front front) {
    ServerProblems problems = new ServerProblems();
    config.jetty.modifyServer(
        server -> {
          server.insertHandler(new Gate(front.hosts()));
          // Outermost: lets what runs finish before the server stops.
          server.insertHandler(new GracefulHandler());
          server.setErrorHandler(problems);
          server.setRequestLog(new AccessLog());
          server.setStopTimeout(STOP_TIMEOUT.toMillis());
          server.addBean(new NetworkConnectionLimit(MAX_CONNECTIONS, server));
        });
    config.jetty.modifyServletContextHandler(context -> context.setErrorHandler(problems));
    config.jetty.modifyHttpConfiguration(Server::configure);
  }

  /** Host and port are known when the server starts. */
  private static void speakTls(JavalinConfig config, Tls tls) {
    config.jetty.addConnector(
        (server, http) -> {
          ServerConnector connector = tls.connector(server, http);
          connector.setHost(config.jetty.host);
          connector.setPort(config.jetty.port);
          return connector;
        });
  }

  private static void configure(HttpConfiguration http) {
    http.setRequestHeaderSize(Gate.MAX_HEADER_BYTES);
    http.setSendServerVersion(false);
    http.setSendXPoweredBy(false);
  }
}
