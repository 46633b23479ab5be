package evenside.api;

/** The version of the program that runs. */
public final class ProgramVersion {
  private ProgramVersion() {}

  /** Of its jar; in words where it does not run from one. */
  public static String text() {
    String version = ProgramVersion.class.getPackage().getImplementationVersion();
    return version == null ? "(not from a jar)" : version;
  }
}
