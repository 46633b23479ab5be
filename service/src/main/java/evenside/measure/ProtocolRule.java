package evenside.measure;

import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Which ways of testing a criterion accepts; an empty or absent part accepts any.
 *
 * @param modes modes of strength testing
 * @param speed deg/s
 * @param angle deg of knee flexion
 * @param context situation of a pain rating
 */
public record ProtocolRule(
    Set<String> modes, @Nullable Double speed, @Nullable Double angle, @Nullable String context) {
  public static final ProtocolRule ANY = new ProtocolRule(Set.of(), null, null, null);

  public ProtocolRule {
    modes = Set.copyOf(modes);
  }

  public boolean accepts(Protocol protocol) {
    Map<String, Object> terms = protocol.terms();
    return (modes.isEmpty() || modes.contains(String.valueOf(terms.get(Protocol.MODE))))
        && (speed == null || speed.equals(terms.get(Protocol.SPEED)))
        && (angle == null || angle.equals(terms.get(Protocol.ANGLE)))
        && (context == null || context.equals(terms.get(Protocol.CONTEXT)));
  }
}
