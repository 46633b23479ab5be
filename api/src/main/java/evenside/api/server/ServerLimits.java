package evenside.api.server;

import java.time.Duration;

/**
 * What the server gives to those who connect.
 *
 * @param connections most connections at once; more wait until one ends
 * @param idle how long a connection may say and hear nothing
 * @param exchange how long one request may take, from its first byte to the last of its answer
 * @param stop how long running requests may take once the service stops
 */
public record ServerLimits(int connections, Duration idle, Duration exchange, Duration stop) {
  /** What holds where nothing else is said. */
  public static final ServerLimits DEFAULT =
      new ServerLimits(200, Duration.ofSeconds(30), Duration.ofSeconds(60), Duration.ofSeconds(10));
}
