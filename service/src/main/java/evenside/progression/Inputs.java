package evenside.progression;

import evenside.signs.EffusionGrade;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What is known of one session, by code of the input, with the entries it comes from. */
final class Inputs {
  private final Map<String, Known> values = new HashMap<>();
  private final Map<String, List<String>> sessions = new HashMap<>();
  private final List<String> own;

  /**
   * Starts without any.
   *
   * @param own the entries that the session itself is made of
   */
  Inputs(List<String> own) {
    this.own = List.copyOf(own);
  }

  /** A copy that can take more. */
  Inputs copy() {
    Inputs copy = new Inputs(own);
    copy.values.putAll(values);
    copy.sessions.putAll(sessions);
    return copy;
  }

  Known value(String input) {
    return values.getOrDefault(input, Known.NOTHING);
  }

  /** The entries a value comes from. */
  List<String> sessions(String input) {
    return sessions.getOrDefault(input, own);
  }

  void put(String input, Known value) {
    values.put(input, value);
  }

  void put(String input, Known value, List<String> from) {
    put(input, value);
    sessions.put(input, List.copyOf(from));
  }

  void number(String input, @Nullable Number value) {
    if (value != null) {
      put(input, Known.number(value.doubleValue()));
    }
  }

  void flag(String input, @Nullable Boolean value) {
    if (value != null) {
      put(input, Known.flag(value));
    }
  }

  void word(String input, @Nullable String value) {
    if (value != null) {
      put(input, new Known.Choice(value));
    }
  }

  void grade(String input, @Nullable EffusionGrade value) {
    if (value != null) {
      put(input, Known.number(value.rank()));
    }
  }
}
