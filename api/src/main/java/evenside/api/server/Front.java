package evenside.api.server;

import java.util.Optional;

/**
 * How requests reach the server.
 *
 * @param hosts which names it answers to
 * @param tls its certificate; without, it speaks plain HTTP
 */
public record Front(HostRule hosts, Optional<Tls> tls) {
  /** Without credentials, on this machine. */
  public static final Front LOOPBACK = new Front(HostRule.LOOPBACK, Optional.empty());
}
