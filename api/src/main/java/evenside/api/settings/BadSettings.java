package evenside.api.settings;

import java.util.List;

/** Settings that the service does not start with. The message names each fault and its place. */
public final class BadSettings extends RuntimeException {
  /** One sentence for each fault. */
  public BadSettings(List<String> faults) {
    super(String.join("\n", faults), null, false, false);
  }

  /** One fault. */
  public BadSettings(String fault) {
    this(List.of(fault));
  }
}
