package evenside.readiness.cases;

import com.fasterxml.uuid.Generators;
import com.fasterxml.uuid.NoArgGenerator;
import evenside.assessment.AssessedBattery;
import evenside.document.Document;
import evenside.limb.Side;
import evenside.note.SigningKey;
import evenside.readiness.ProvenRecord;
import evenside.readiness.ReadinessService;
import evenside.readiness.Rehab;
import evenside.readiness.computing.Published;
import evenside.readiness.computing.Scoring;
import evenside.readiness.recording.Records;
import evenside.store.StoredBattery;
import evenside.store.StoredSession;
import evenside.store.database.StoreSettings;
import evenside.training.Diary;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Cases with as many batteries, or entries of the training record, as asked for. What goes in is
 * made and filed as the service does it; only acceptance is left out, which holds an entry against
 * those around it.
 *
 * <p>Of all sizes the newest ten lie in the last weeks, and all others before them, one a day: so
 * what a decision looks at is the same, and only what it passes over grows.
 */
public final class FilledCases implements AutoCloseable {
  public static final LocalDate AS_OF = LocalDate.parse("2026-11-20");
  public static final String TRAINING_SET = "growth-training/1";

  private static final LocalDate SURGERY = LocalDate.parse("1999-01-04");
  private static final int NEWEST = 10;
  private static final int BLOCK = 1_000;

  private final NoArgGenerator ids = Generators.timeBasedEpochGenerator();
  private final Scoring scoring = new Scoring(new Published(ProvenRecord.CONTRACT));
  private final ProvenRecord record;

  public FilledCases(Path folder, StoreSettings where) {
    record = new ProvenRecord(folder, where, SigningKey.generate());
    record.service.criteriaSets().publish(ProvenRecord.CLINIC, trainingSet());
  }

  public ReadinessService service() {
    return record.service;
  }

  public void put(String caseId) {
    record
        .service
        .cases()
        .put(ProvenRecord.CLINIC, caseId, Rehab.person(SURGERY), Optional.empty());
  }

  public void decide(String caseId, String set) {
    ObjectNode request = Records.object().put("schemaVersion", "1.0");
    String[] parts = set.split("/", 2);
    request.putObject("criteriaSet").put("id", parts[0]).put("version", parts[1]);
    request.put("asOf", AS_OF.toString());
    record.service.decisions().decide(ProvenRecord.CLINIC, caseId, request, Optional.empty());
  }

  /** The day of a record, counted from the newest on. */
  private static LocalDate day(int back, int apart) {
    int recent = Math.min(back, NEWEST) * apart;
    return AS_OF.minusDays(1 + recent + Math.max(0, back - NEWEST));
  }

  /** The example of a battery, with strength tested at a speed. */
  public void batteries(String caseId, int count, int speed) {
    put(caseId);
    blocks(count, back -> battery(caseId, day(back, 2), speed))
        .forEach(
            block ->
                record.store.<Boolean>write(
                    writing -> {
                      block.forEach(
                          one -> writing.insertBattery(one.row(), EvidenceRows.of(one.assessed())));
                      return true;
                    }));
  }

  private record Filed(StoredBattery row, AssessedBattery assessed) {}

  private Filed battery(String caseId, LocalDate day, int speed) {
    ObjectNode sent = ProvenRecord.battery();
    sent.put("performedAt", day + "T10:15:00+02:00");
    for (JsonNode result : sent.at("/results/isokineticStrength")) {
      ((ObjectNode) result.path("speed")).put("value", speed);
    }
    UUID id = ids.generate();
    Instant at = Instant.parse(day + "T08:15:00Z");
    AssessedBattery assessed = scoring.battery(id.toString(), sent, Side.LEFT);
    Document content = Document.of(sent);
    byte[] document =
        BatteryRecord.document("1.0", id, caseId, at, content, assessed, List.of()).bytes();
    return new Filed(
        new StoredBattery(
            ProvenRecord.CLINIC, id, caseId, Optional.empty(), content.sha256(), at, at, document),
        assessed);
  }

  /**
   * Runs with a quiet knee, and one battery.
   *
   * @param stops of the older ones every so manieth called for a stop, and the next one is the
   *     clearance of it; 0 for none
   */
  public void sessions(String caseId, int count, int stops) {
    batteries(caseId, 1, 60);
    blocks(count, back -> session(caseId, day(back, 10), back, stops))
        .forEach(
            block ->
                record.store.<Boolean>write(
                    writing -> {
                      block.forEach(one -> writing.insertSession(one.row(), one.content().bytes()));
                      return true;
                    }));
  }

  private record Entered(StoredSession row, Document content) {}

  private Entered session(String caseId, LocalDate day, int back, int stops) {
    // Clearances are newer than what they clear, so they have the smaller number.
    boolean counted = stops > 0 && back > NEWEST;
    boolean clears = counted && back % stops == 0;
    boolean calls = counted && back % stops == 1;
    String name = caseId + "-" + back;
    ObjectNode sent =
        clears
            ? Diary.clearance(name, day + "T17:30:00+01:00", caseId + "-" + (back + 1))
            : Diary.run(day, 1);
    sent.put("recordId", name);
    if (calls) {
      Diary.flags(sent).put("hotKnee", "yes");
    }
    UUID id = ids.generate();
    Instant at = Instant.parse(day + "T16:30:00Z");
    Document content = Document.of(sent);
    ObjectNode document = Records.object();
    document.put("schemaVersion", "1.0").put("sessionId", id.toString()).put("caseId", caseId);
    document.set("session", sent);
    return new Entered(
        new StoredSession(
            ProvenRecord.CLINIC,
            id,
            caseId,
            Optional.of(name),
            content.sha256(),
            at,
            at,
            clears || calls,
            Document.of(document).bytes()),
        content);
  }

  private static <T> List<List<T>> blocks(int count, Function<Integer, T> make) {
    List<List<T>> blocks = new ArrayList<>();
    for (int back = count - 1; back >= 0; back--) {
      if (blocks.isEmpty() || blocks.get(blocks.size() - 1).size() == BLOCK) {
        blocks.add(new ArrayList<>());
      }
      blocks.get(blocks.size() - 1).add(make.apply(back));
    }
    return blocks;
  }

  /** A set of the clinic's own that asks the training record. */
  private static ObjectNode trainingSet() {
    ObjectNode json = Records.object();
    json.put("schemaVersion", "1.0").put("id", "growth-training").put("version", "1");
    json.put("title", "Training").put("milestone", "start-training");
    json.put("designedFor", "A measurement.").put("population", "Nobody.");
    json.put("basis", "clinic-protocol");
    json.putObject("source").put("source", "adams-2012");
    ObjectNode all = json.putObject("criteria").put("type", "all").put("id", "all");
    ObjectNode fact = all.put("title", "All of").putArray("of").addObject();
    fact.put("type", "training").put("id", "free").put("title", "Free of pain");
    fact.put("fact", "pain-free-sessions-in-a-row").put("comparator", ">=");
    fact.put("bound", 2).put("unit", "{sessions}");
    fact.putObject("citation").put("source", "adams-2012");
    fact.put("verified", true);
    return json;
  }

  @Override
  public void close() {
    record.close();
  }
}
