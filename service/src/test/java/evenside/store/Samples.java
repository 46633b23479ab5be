package evenside.store;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.impl.TimeBasedEpochGenerator;
import evenside.store.cohort.CaseFacts;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.Optional;
import java.util.UUID;

/** Invented rows. */
public final class Samples {
  public static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");

  private static final TimeBasedEpochGenerator IDS = Generators.timeBasedEpochGenerator();

  private Samples() {}

  public static UUID newId() {
    return IDS.generate();
  }

  public static String newClinic() {
    return "clinic-" + newId();
  }

  public static byte[] bytes(String text) {
    return text.getBytes(UTF_8);
  }

  public static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError(e);
    }
  }

  public static StoredCase kneeCase(String clinic, String caseId, int revision) {
    byte[] document = bytes("{\"case\":\"" + caseId + "\",\"revision\":" + revision + "}");
    return new StoredCase(clinic, caseId, revision, NOON, sha256(document), document);
  }

  public static CaseFacts facts() {
    return new CaseFacts("female", 2001, "hamstring-tendon", LocalDate.parse("2025-09-01"));
  }

  public static StoredPlan plan(String clinic, String caseId, Instant adoptedAt) {
    UUID id = newId();
    byte[] document = bytes("{\"plan\":\"" + id + "\"}");
    return new StoredPlan(clinic, id, caseId, "start-running", adoptedAt, document);
  }

  public static StoredBattery battery(String clinic, String caseId, Instant performedAt) {
    return battery(clinic, caseId, performedAt, Optional.empty());
  }

  public static StoredBattery battery(
      String clinic, String caseId, Instant performedAt, Optional<String> recordId) {
    UUID id = newId();
    byte[] document = bytes("{\"battery\":\"" + id + "\"}");
    return new StoredBattery(
        clinic, id, caseId, recordId, sha256(document), performedAt, NOON, document);
  }

  public static StoredSession session(
      String clinic, String caseId, Instant performedAt, Optional<String> recordId) {
    return session(clinic, caseId, performedAt, recordId, false);
  }

  public static StoredSession session(
      String clinic,
      String caseId,
      Instant performedAt,
      Optional<String> recordId,
      boolean flagged) {
    UUID id = newId();
    byte[] document = bytes("{\"session\":\"" + id + "\"}");
    return new StoredSession(
        clinic, id, caseId, recordId, sha256(document), performedAt, NOON, flagged, document);
  }

  /** What was sent to be recorded as {@link #session}. */
  public static byte[] content(StoredSession session) {
    return bytes("{\"sent\":\"" + session.id() + "\"}");
  }

  public static StoredDecision decision(String clinic, String caseId, Instant decidedAt) {
    return decision(clinic, caseId, "return-to-competition", "not-met", decidedAt);
  }

  public static StoredDecision decision(
      String clinic, String caseId, String milestone, String outcome, Instant decidedAt) {
    UUID id = newId();
    return new StoredDecision(
        clinic,
        id,
        caseId,
        "set-of-" + milestone,
        "1.0",
        sha256(bytes(milestone)),
        milestone,
        outcome,
        LocalDate.parse("2026-03-02"),
        decidedAt,
        bytes("{\"decision\":\"" + id + "\"}"),
        bytes("{\"inputs\":\"" + id + "\"}"));
  }

  public static Remembered remembered(String clinic, String key, UUID recordId) {
    return new Remembered(clinic, key, sha256(bytes(key)), "battery", recordId.toString(), NOON);
  }

  public static StoredCriteriaSet criteriaSet(String clinic, String id, String version) {
    byte[] document = bytes("{\"id\":\"" + id + "\",\"version\":\"" + version + "\"}");
    return new StoredCriteriaSet(clinic, id, version, sha256(document), document, NOON);
  }
}
