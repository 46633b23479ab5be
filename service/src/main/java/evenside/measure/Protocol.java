package evenside.measure;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * How a test was done, as far as it changes the number: mode, speed, angle, method, device, arms,
 * timing… Two results are compared only if their protocols are equal; a term stated on one side and
 * not on the other makes them different.
 *
 * @param terms name to text, number, boolean or {@link evenside.quantity.Quantity}, in order of
 *     name; speed and angle are plain numbers in deg/s and deg
 */
public record Protocol(Map<String, Object> terms) {
  public static final Protocol NONE = new Protocol(Map.of());

  public static final String MODE = "mode";
  public static final String SPEED = "speed";
  public static final String ANGLE = "angle";
  public static final String CONTEXT = "context";
  public static final String METHOD = "method";
  public static final String LEVER_ARM = "leverArm";

  public Protocol {
    terms = java.util.Collections.unmodifiableMap(new TreeMap<>(terms));
  }

  /** The same without some terms. */
  public Protocol without(String... names) {
    Map<String, Object> rest = new TreeMap<>(terms);
    rest.keySet().removeAll(Set.of(names));
    return new Protocol(rest);
  }

  /** The names of the terms in which the two differ, separated by commas; empty if equal. */
  public String differingFrom(Protocol that) {
    TreeMap<String, Object> all = new TreeMap<>(terms);
    all.putAll(that.terms);
    all.keySet().removeIf(name -> java.util.Objects.equals(terms.get(name), that.terms.get(name)));
    return String.join(", ", all.keySet());
  }
}
