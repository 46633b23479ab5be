package evenside.store;

import evenside.store.cohort.CaseFacts;
import evenside.store.database.Failures;
import evenside.store.database.StoreConflict;
import evenside.store.database.StoreConflict.Kind;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Update;

/** What a transaction can do with cases: hold one, and add a revision. */
public final class CaseWriting {
  private final Handle handle;

  CaseWriting(Handle handle) {
    this.handle = handle;
  }

  /**
   * Keeps others from changing or erasing a case until this transaction ends, having waited for
   * those that do. What they left is seen in {@link Store#writeInTurn} alone.
   *
   * @param clinic the clinic
   * @param caseId the case
   * @return the newest revision; empty where there is no such case
   */
  public Optional<StoredCase> hold(String clinic, String caseId) {
    lock(clinic, caseId);
    return new Reading(handle).latestCase(clinic, caseId);
  }

  private void lock(String clinic, String caseId) {
    handle
        .createQuery(
            """
            select revision from knee_case
            where clinic = :clinic and case_id = :case_id and revision = 1 for update
            """)
        .bind("clinic", clinic)
        .bind("case_id", caseId)
        .mapTo(Integer.class)
        .findOne();
  }

  /**
   * The same, for what was computed on a revision that was read before.
   *
   * @param seen that revision
   * @return whether the case is still there
   * @throws StoreConflict {@link Kind#CASE_REVISION_TAKEN} if it has a newer revision, or is
   *     another case of the same name
   */
  public boolean hold(StoredCase seen) {
    lock(seen.clinic(), seen.caseId());
    Optional<String> now =
        handle
            .createQuery(
                """
                select sha256 from knee_case where clinic = :clinic and case_id = :case_id
                order by clinic desc, case_id desc, revision desc limit 1
                """)
            .bind("clinic", seen.clinic())
            .bind("case_id", seen.caseId())
            .mapTo(String.class)
            .findOne();
    if (now.isPresent() && !now.get().equals(seen.sha256())) {
      throw new StoreConflict(Kind.CASE_REVISION_TAKEN);
    }
    return now.isPresent();
  }

  /**
   * Adds a revision of a case.
   *
   * @param stored the revision
   * @throws StoreConflict {@link Kind#CASE_REVISION_TAKEN} if the case has that revision
   */
  public void insert(StoredCase stored) {
    Update insert =
        handle
            .createUpdate(
                """
                insert into knee_case (clinic, case_id, revision, received_at, sha256, document)
                values (:clinic, :case_id, :revision, :received_at, :sha256, :document)
                """)
            .bind("clinic", stored.clinic())
            .bind("case_id", stored.caseId())
            .bind("revision", stored.revision())
            .bind("received_at", stored.receivedAt())
            .bind("sha256", stored.sha256())
            .bind("document", stored.document());
    Failures.insert(insert, Kind.CASE_REVISION_TAKEN);
  }

  /** Adds what a revision of a case, added before, is found by in a cohort. */
  public void insertFacts(StoredCase stored, CaseFacts facts) {
    handle
        .createUpdate(
            """
            insert into case_facts
              (clinic, case_id, revision, sex, birth_year, graft, surgery_date)
            values (:clinic, :case_id, :revision, :sex, :birth_year, :graft, :surgery_date)
            """)
        .bind("clinic", stored.clinic())
        .bind("case_id", stored.caseId())
        .bind("revision", stored.revision())
        .bind("sex", facts.sex())
        .bind("birth_year", facts.birthYear())
        .bind("graft", facts.graft())
        .bind("surgery_date", facts.surgeryDate())
        .execute();
  }
}
