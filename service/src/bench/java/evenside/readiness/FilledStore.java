package evenside.readiness;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.document.Document;
import evenside.ledger.Appending;
import evenside.ledger.NewEntry;
import evenside.note.SigningKey;
import evenside.readiness.recording.Recorded;
import evenside.store.ManyRows;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import evenside.store.StoredDetermination;
import evenside.store.Writing;
import evenside.store.cohort.CaseFacts;
import evenside.store.cohort.FindingRow;
import evenside.store.database.StoreSettings;
import evenside.store.evidence.EvidenceRow;
import evenside.store.evidence.FiledNumber;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import tools.jackson.databind.node.ObjectNode;

/**
 * The record of a clinic with as many decisions as asked for, 20 a person, over five years. A few
 * people were recorded by the service, half of them first and half of them last; these are asked
 * about. The rows of all others are written directly, with every column, entry, salt and hash, but
 * with documents of 2 kB (inputs of 1 kB) that say nothing.
 */
final class FilledStore implements AutoCloseable {
  static final String SET = "delaware-oslo/2020.1";
  static final int DECISIONS_A_PERSON = 20;

  /** Of the rows written directly; each entry has its hash, and the ledger keeps it once. */
  private static final byte[] CRITERIA = "{\"id\":\"a-set\",\"version\":\"1\"}".getBytes(UTF_8);

  private static final int RECORDED = 40;
  private static final int BATTERIES = 5;
  private static final int BLOCK = 20_000;
  private static final long DAYS = 5 * 365;
  private static final List<String> OUTCOMES = List.of("met", "not-met", "undetermined");
  private static final List<String> OTHER_MILESTONES =
      List.of("start-running", "start-jumping", "start-training");

  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();
  private final Random random = new Random(1);
  private final Instant start;
  private final ProvenRecord record;
  private final String padding;
  private final List<String> decided = new ArrayList<>();
  private int asked;

  FilledStore(Path folder, StoreSettings where, int decisions) {
    record = new ProvenRecord(folder, where, SigningKey.generate());
    start = record.now.minus(DAYS, ChronoUnit.DAYS);
    byte[] noise = new byte[1_400];
    random.nextBytes(noise);
    padding = Base64.getEncoder().encodeToString(noise);
    fill(decisions, where.url().startsWith("jdbc:h2"));
  }

  static String clinic() {
    return ProvenRecord.CLINIC;
  }

  ReadinessService service() {
    return record.service;
  }

  private void fill(int decisions, boolean embedded) {
    int people = Math.max(RECORDED, decisions / DECISIONS_A_PERSON);
    for (int i = 0; i < RECORDED / 2; i++) {
      person(i);
    }
    ManyRows.filling(record.store, embedded, () -> others(people, decisions));
    for (int i = RECORDED / 2; i < RECORDED; i++) {
      person(i);
    }
  }

  private void others(int people, int decisions) {
    List<UUID> batteries = people(people);
    int rest = decisions - RECORDED;
    for (int done = 0; done < rest; done += BLOCK) {
      int from = done;
      int count = Math.min(BLOCK, rest - done);
      record.ledger.append(
          clinic(), appending -> block(appending, batteries, from, count, decisions));
    }
  }

  /** Somebody with batteries, a decision and what a clinician said on it. */
  private void person(int number) {
    String caseId = "recorded-" + number;
    record.putCase(caseId);
    for (int month = 3; month < 3 + BATTERIES; month++) {
      ObjectNode battery = ProvenRecord.battery();
      battery.put("performedAt", "2026-%02d-19T10:15:00+02:00".formatted(month));
      record.service.batteries().add(clinic(), caseId, battery, Optional.empty());
    }
    String decision = record.decide(caseId).id();
    record
        .service
        .determinations()
        .add(
            clinic(),
            "gym-software",
            decision,
            ProvenRecord.determination("not-cleared", "As the person wishes."),
            Optional.empty());
    decided.add(decision);
  }

  /** Decides on one of the people whom the service recorded; another one each time. */
  Recorded decide() {
    return record.decide("recorded-" + (asked++ % RECORDED));
  }

  /** A decision that can be proved; another one each time, of the oldest and of the newest. */
  String decision() {
    return decided.get(asked++ * 7 % RECORDED);
  }

  private List<UUID> people(int people) {
    List<UUID> batteries = new ArrayList<>();
    byte[] document = document("caseId", "somebody");
    String hash = Document.sha256(document);
    for (int from = 0; from < people; from += BLOCK) {
      int first = from;
      record.store.<Boolean>write(
          writing -> {
            for (int i = first; i < Math.min(people, first + BLOCK); i++) {
              StoredCase stored = new StoredCase(clinic(), "k-" + i, 1, start, hash, document);
              writing.cases().insert(stored);
              writing
                  .cases()
                  .insertFacts(
                      stored,
                      new CaseFacts("female", 2000, "hamstring-tendon", day(start).minusDays(90)));
              writing.audit().nameSubject(clinic(), "k-" + i, 1, "S-" + i);
              batteries.add(battery(writing, "k-" + i, hash, document));
            }
            return true;
          });
    }
    return batteries;
  }

  private UUID battery(Writing writing, String caseId, String hash, byte[] document) {
    UUID id = ids.generate();
    Instant at = start.plus(random.nextInt((int) DAYS), ChronoUnit.DAYS);
    List<EvidenceRow> evidence = new ArrayList<>();
    for (String measure : List.of("single-hop-distance", "triple-hop-distance", "kos-adls")) {
      for (String aspect : List.of("operated", "other", "symmetry")) {
        evidence.add(
            new EvidenceRow(
                measure,
                aspect,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(new FiledNumber(90, "%", "{\"joined\":\"best\"}", day(at)))));
      }
    }
    writing.insertBattery(
        new StoredBattery(clinic(), id, caseId, Optional.empty(), hash, at, at, document),
        evidence);
    return id;
  }

  private boolean block(
      Appending appending, List<UUID> batteries, int from, int count, int decisions) {
    List<StoredDecision> rows = new ArrayList<>();
    Map<UUID, UUID> named = new HashMap<>();
    String hash = Document.sha256(CRITERIA);
    for (int i = from; i < from + count; i++) {
      int person = random.nextInt(batteries.size());
      StoredDecision row = decision(i, "k-" + person, decisions, hash);
      rows.add(row);
      named.put(row.id(), batteries.get(person));
      appending.add(NewEntry.decision(row.id(), CRITERIA, row.document(), row.inputs()));
      if (i % 10 == 0) {
        determine(appending, row, i);
      }
    }
    List<FindingRow> findings = new ArrayList<>();
    findings.add(new FindingRow(FindingRow.WHOLE_SET, "", true, false));
    for (String criterion : List.of("quadriceps", "single-hop")) {
      findings.add(new FindingRow(criterion, "met", true, false));
    }
    ManyRows.decisions(appending.writing(), rows, findings, named);
    return true;
  }

  /** Every other one is by the set that is measured. */
  private StoredDecision decision(int i, String caseId, int decisions, String hash) {
    UUID id = ids.generate();
    Instant at = start.plusSeconds(DAYS * 86_400 * i / decisions);
    boolean measured = i % 2 == 0;
    return new StoredDecision(
        clinic(),
        id,
        caseId,
        measured ? "delaware-oslo" : "a-set-" + i % 4,
        measured ? "2020.1" : "1",
        hash,
        measured ? "return-to-competition" : OTHER_MILESTONES.get(i % 3),
        OUTCOMES.get(random.nextInt(3)),
        day(at),
        at,
        document("decisionId", id.toString()),
        document("decisionId", id.toString(), 700));
  }

  /** One decision in ten; of these one in a hundred otherwise than the outcome. */
  private void determine(Appending appending, StoredDecision decision, int i) {
    UUID id = ids.generate();
    byte[] document = document("determinationId", id.toString(), 300);
    appending
        .writing()
        .audit()
        .insertDetermination(
            new StoredDetermination(
                clinic(),
                id,
                decision.id(),
                decision.caseId(),
                "not-cleared",
                "pt-" + random.nextInt(500),
                i % 1000 == 0,
                decision.decidedAt(),
                document));
    appending.add(NewEntry.determination(id, decision.id(), document));
  }

  private byte[] document(String member, String id) {
    return document(member, id, padding.length());
  }

  private byte[] document(String member, String id, int length) {
    return ("{\""
            + member
            + "\":\""
            + id
            + "\",\"noise\":\""
            + padding.substring(0, length)
            + "\"}")
        .getBytes(UTF_8);
  }

  private static LocalDate day(Instant at) {
    return LocalDate.ofInstant(at, ZoneOffset.UTC);
  }

  @Override
  public void close() {
    record.close();
  }
}
