package evenside.readiness.recording;

import evenside.store.StoredCase;
import evenside.store.Writing;
import evenside.store.database.StoreConflict;
import java.util.Set;
import java.util.function.Supplier;

/**
 * That a record goes into the case it was computed on. Between the two the case may be changed, so
 * that the record no longer fits it, or erased, so that nothing of it may come back.
 */
public final class UnchangedCase {
  private static final int ATTEMPTS = 5;

  private static final Set<StoreConflict.Kind> AGAIN =
      Set.of(StoreConflict.Kind.CASE_REVISION_TAKEN, StoreConflict.Kind.ROLLED_BACK);

  private UnchangedCase() {}

  /**
   * Lets nobody change or erase a case until a record on it is written.
   *
   * @param seen the revision that the record was computed on
   * @throws StoreConflict if it was changed since: see {@link #again}
   * @throws Refused {@link Refusal#NOT_FOUND} if it was erased since
   */
  public static void hold(Writing writing, StoredCase seen) {
    if (!writing.cases().hold(seen)) {
      throw Records.notFound("case");
    }
  }

  /** The same for what does not depend on the revision. */
  public static void hold(Writing writing, String clinic, String caseId) {
    if (writing.cases().hold(clinic, caseId).isEmpty()) {
      throw Records.notFound("case");
    }
  }

  /**
   * Computes and writes once more what met a case that was changed meanwhile, or what the database
   * broke off.
   */
  public static Recorded again(Supplier<Recorded> work) {
    for (int attempt = 1; ; attempt++) {
      try {
        return work.get();
      } catch (StoreConflict conflict) {
        if (!AGAIN.contains(conflict.kind()) || attempt == ATTEMPTS) {
          throw conflict;
        }
      }
    }
  }
}
