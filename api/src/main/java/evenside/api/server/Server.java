package evenside.api.server;

import evenside.api.http.Dispatcher;
import evenside.api.http.Finished;
import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.eclipse.jetty.http.HttpCompliance;
import org.eclipse.jetty.server.AbstractConnector;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.GracefulHandler;
import org.eclipse.jetty.util.component.LifeCycle;

/** The web server around the routes. */
public final class Server {
  private Server() {}

  /**
   * The server, not yet started.
   *
   * @param dispatcher the routes
   * @param front how it is reached
   * @param limits what it gives to those who connect
   * @param draining whether it is about to stop
   * @param watcher is told of each request that has ended
   */
  public static Javalin create(
      Dispatcher dispatcher,
      Front front,
      ServerLimits limits,
      Draining draining,
      Consumer<Finished> watcher) {
    return Javalin.create(
        config -> {
          config.startup.showJavalinBanner = false;
          config.startup.startupWatcherEnabled = false;
          config.http.prefer405over404 = true;
          // The coded form needs an entity tag and a digest of its own: see ContentCoding.
          config.http.compressionStrategy = CompressionStrategy.NONE;
          config.router.ignoreTrailingSlashes = false;
          config.router.javaLangErrorHandler(Dispatcher::fail);
          configureJetty(config, front, limits, draining, watcher);
          front.tls().ifPresent(tls -> speakTls(config, tls));
          dispatcher.register(config);
        });
  }

  private static void configureJetty(
      JavalinConfig config,
      Front front,
      ServerLimits limits,
      Draining draining,
      Consumer<Finished> watcher) {
    ServerProblems problems = new ServerProblems();
    config.jetty.modifyServer(
        server -> {
          server.insertHandler(new Gate(front.hosts(), draining));
          // Outermost: lets what runs finish before the server stops.
          server.insertHandler(new GracefulHandler());
          server.setErrorHandler(problems);
          server.setRequestLog(new Ending(List.of(new AccessLog(), watcher)));
          server.setStopTimeout(limits.stop().toMillis());
          server.addBean(new NetworkConnectionLimit(limits.connections(), server));
          SlowConnections slow = new SlowConnections(limits.exchange(), limits.connections());
          server.addBean(slow);
          server.addEventListener(
              new LifeCycle.Listener() {
                @Override
                public void lifeCycleStarting(LifeCycle starting) {
                  // The connectors are made between here and there.
                  Stream.of(server.getConnectors()).forEach(one -> listen(one, limits, slow));
                }
              });
        });
    config.jetty.modifyServletContextHandler(context -> context.setErrorHandler(problems));
    config.jetty.modifyHttpConfiguration(Server::configure);
  }

  private static void listen(Connector connector, ServerLimits limits, SlowConnections slow) {
    if (connector instanceof AbstractConnector one) {
      one.setIdleTimeout(limits.idle().toMillis());
      one.addBean(slow, false);
    }
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
    // Lines end in CR LF alone: whoever stands in front must not see other lines than are seen
    // here.
    http.setHttpCompliance(HttpCompliance.STRICT);
    http.setSendServerVersion(false);
    http.setSendXPoweredBy(false);
  }
}
