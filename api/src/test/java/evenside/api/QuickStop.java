package evenside.api;

import io.javalin.Javalin;
import org.eclipse.jetty.server.AbstractConnector;
import org.eclipse.jetty.server.Connector;

/** Stops a server of a test. */
final class QuickStop {
  private QuickStop() {}

  /** Without the second for which Jetty lets connections live that nobody uses any more. */
  static void of(Javalin app) {
    for (Connector connector : app.jettyServer().server().getConnectors()) {
      if (connector instanceof AbstractConnector one) {
        one.setShutdownIdleTimeout(1);
      }
    }
    app.stop();
  }
}
