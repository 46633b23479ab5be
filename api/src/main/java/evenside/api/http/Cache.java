package evenside.api.http;

/** What a receiver may keep, as a {@code Cache-Control} value. */
public enum Cache {
  /** A published document under its version: kept by anyone for ever. */
  IMMUTABLE("public, max-age=31536000, immutable"),
  /** Published, and may change with the next release: kept by anyone, asked about each time. */
  PUBLIC("public, no-cache"),
  /** About a person: kept by the client alone, asked about each time. */
  PRIVATE("private, no-cache"),
  /** Of no use a moment later. */
  NONE("no-store");

  private final String value;

  Cache(String value) {
    this.value = value;
  }

  /** The header's value. */
  public String value() {
    return value;
  }
}
