package evenside.api.http;

import java.util.Locale;
import java.util.Set;

/**
 * The names of this machine itself. A service without credentials answers to no other: an outside
 * name that is pointed at 127.0.0.1 would let any web page talk to it (DNS rebinding).
 */
public final class Loopback {
  private static final Set<String> NAMES = Set.of("localhost", "127.0.0.1", "[::1]");

  private Loopback() {}

  /** Whether {@code address} can be bound without opening the service to the network. */
  public static boolean isAddress(String address) {
    return NAMES.contains(address) || address.equals("::1");
  }

  /** Whether a {@code Host} header, with or without port, names this machine. */
  static boolean isHost(String host) {
    String name = host.replaceFirst(":[0-9]{1,5}$", "");
    return NAMES.contains(name.toLowerCase(Locale.ROOT));
  }
}
