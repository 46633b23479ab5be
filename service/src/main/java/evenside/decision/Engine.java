package evenside.decision;

/** The rules of computation. A decision names the version that made it. */
public final class Engine {
  /** Goes up whenever the same inputs could give other findings. */
  public static final String VERSION = "1.0";

  private Engine() {}
}
