package evenside.store.database;

/**
 * The transaction met something that is already there, or waited too long for another one. It was
 * rolled back as a whole; to look at what is there, start a new {@link evenside.store.Store#read}.
 *
 * <p>An exception and not a return value, because PostgreSQL refuses every further statement of a
 * transaction in which a unique key was violated: nothing can follow but the end.
 */
public final class StoreConflict extends StoreException {
  private final Kind kind;

  /**
   * Makes the exception.
   *
   * @param kind what was met
   */
  public StoreConflict(Kind kind) {
    super(kind.message);
    this.kind = kind;
  }

  /**
   * What was met.
   *
   * @return the kind of the conflict
   */
  public Kind kind() {
    return kind;
  }

  /** What a transaction can collide with. */
  public enum Kind {
    /**
     * The idempotency key was used before; {@link evenside.store.Reading#remembered} has the first
     * answer.
     */
    ALREADY_REMEMBERED("the idempotency key was used before"),
    /** That revision of the case exists: someone else changed the case in between. */
    CASE_REVISION_TAKEN("that revision of the case exists already"),
    /** A record of that kind has the same record id in the clinic. */
    RECORD_ID_TAKEN("a record with that record id exists already"),
    /** The clinic has published that version of the criteria set. */
    CRITERIA_SET_TAKEN("that version of the criteria set exists already"),
    /** The clinic has a ledger of that number, or another clinic one of that origin. */
    LEDGER_TAKEN("that ledger exists already"),
    /** The battery was corrected by another one before. */
    BATTERY_REPLACED("that battery was corrected already"),
    /** Another process works at the same bulk work. */
    JOB_TAKEN("another process is working on that job"),
    /** Another key was issued to the same client at the same time. */
    CLIENT_KEY_TAKEN("another key of that client was issued at the same time"),
    /** Another transaction held what this one needed for too long; it may be tried again. */
    BUSY("another request held the same record for too long"),
    /**
     * The database broke the transaction off, as it and another waited for each other, and has
     * taken back all of it; it may be tried again.
     */
    ROLLED_BACK("the database broke the transaction off");

    private final String message;

    Kind(String message) {
      this.message = message;
    }
  }
}
