package evenside.api.server;

import java.util.Set;

/**
 * The names of this machine itself. A service without credentials answers to no other: an outside
 * name that is pointed at 127.0.0.1 would let any web page talk to it (DNS rebinding).
 */
public final class Loopback {
  static final Set<String> NAMES = Set.of("localhost", "127.0.0.1", "[::1]");

  private Loopback() {}

  /** Whether {@code address} can be bound without opening the service to the network. */
  public static boolean isAddress(String address) {
    return NAMES.contains(address) || address.equals("::1");
  }
}
