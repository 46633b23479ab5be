package evenside.readiness.audit;

import evenside.document.Document;
import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import evenside.store.RecordPages;
import evenside.store.Store;
import evenside.store.StoredBattery;
import evenside.store.StoredCase;
import evenside.store.StoredDecision;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * Holds what no entry of a ledger commits to against the hashes kept with it: cases, batteries and
 * entries of the training record. What a decision rests on is held against the decision too, whose
 * bytes the ledger commits to; and every decision must have its entry, and be found by what it
 * says.
 *
 * <p>Who can change a row can change the hash beside it, and a plan has none: so this finds damage,
 * and a change behind a decision, and not every change.
 */
public final class RecordAudit {
  private static final int PAGE = 100;
  private static final UUID FIRST = new UUID(0, 0);

  private final Store store;
  private final String clinic;
  private final Map<String, Integer> counts = new LinkedHashMap<>();
  private final List<String> findings = new ArrayList<>();

  private RecordAudit(Store store, String clinic) {
    this.store = store;
    this.clinic = clinic;
  }

  /**
   * What was found in the record of a clinic.
   *
   * @param counts how much was looked at, by its name in the plural
   * @param findings one sentence for each thing that is wrong, naming it; empty if nothing is
   */
  public record Result(Map<String, Integer> counts, List<String> findings) {}

  /** Goes through the record of a clinic. */
  public static Result of(Store store, String clinic) {
    RecordAudit audit = new RecordAudit(store, clinic);
    audit.run();
    return new Result(audit.counts, List.copyOf(audit.findings));
  }

  private void run() {
    StoredCase last = null;
    List<StoredCase> cases;
    do {
      String caseId = last == null ? "" : last.caseId();
      int revision = last == null ? 0 : last.revision();
      cases = store.read(reading -> reading.pages().cases(clinic, caseId, revision, PAGE));
      cases.forEach(this::kneeCase);
      last = cases.isEmpty() ? last : cases.get(cases.size() - 1);
    } while (cases.size() == PAGE);
    all(
        "batteries",
        after -> store.read(reading -> reading.pages().batteries(clinic, after, PAGE)),
        StoredBattery::id,
        this::battery);
    all(
        "training entries",
        after -> store.read(reading -> reading.pages().sessions(clinic, after, PAGE)),
        kept -> kept.session().id(),
        this::session);
    all(
        "decisions",
        after -> store.read(reading -> reading.pages().decisions(clinic, after, PAGE)),
        StoredDecision::id,
        this::decision);
  }

  private <T> void all(
      String what, Function<UUID, List<T>> next, Function<T, UUID> id, Consumer<T> check) {
    counts.put(what, 0);
    UUID after = FIRST;
    List<T> page;
    do {
      page = next.apply(after);
      counts.merge(what, page.size(), Integer::sum);
      page.forEach(check);
      after = page.isEmpty() ? after : id.apply(page.get(page.size() - 1));
    } while (page.size() == PAGE);
  }

  private void kneeCase(StoredCase kept) {
    counts.merge("revisions of cases", 1, Integer::sum);
    if (!Document.sha256(kept.document()).equals(kept.sha256())) {
      altered("revision %d of the case %s".formatted(kept.revision(), kept.caseId()));
    }
  }

  private void battery(StoredBattery kept) {
    if (!content(kept.document(), "battery").equals(kept.contentSha256())) {
      altered("battery " + kept.id());
    }
  }

  private void session(RecordPages.KeptSession kept) {
    String sha256 = kept.session().contentSha256();
    if (!content(kept.session().document(), "session").equals(sha256)
        || !Document.sha256(kept.content()).equals(sha256)) {
      altered("training entry " + kept.session().id());
    }
  }

  private void altered(String what) {
    findings.add("the " + what + " was altered: its hash is of something else");
  }

  /** The hash of what was sent, which stands in what is kept; empty where it cannot be read. */
  private static String content(byte[] document, String member) {
    JsonNode content = json(document).path(member);
    return content.isObject() ? Document.of(content).sha256() : "";
  }

  private static JsonNode json(byte[] document) {
    try {
      return StrictJson.read(document, StrictJson.Limits.OWN);
    } catch (NotJson damaged) {
      return JsonNodeFactory.instance.objectNode();
    }
  }

  private void decision(StoredDecision kept) {
    if (store.read(reading -> reading.ledger().place(clinic, kept.id())).isEmpty()) {
      findings.add(
          "the decision %s has no entry in the ledger: the ledger was off, or it came in another way"
              .formatted(kept.id()));
      return;
    }
    JsonNode said = json(kept.document());
    boolean found =
        said.path("decisionId").asString("").equals(kept.id().toString())
            && said.path("caseId").asString("").equals(kept.caseId())
            && said.path("outcome").asString("").equals(kept.outcome())
            && said.path("asOf").asString("").equals(kept.asOf().toString())
            && said.at("/criteriaSet/id").asString("").equals(kept.criteriaSet())
            && said.at("/criteriaSet/version").asString("").equals(kept.criteriaVersion())
            && said.at("/criteriaSet/milestone").asString("").equals(kept.milestone());
    if (!found) {
      findings.add("the decision %s is filed under what it does not say".formatted(kept.id()));
    }
    said.path("batteries").forEach(used -> used(kept.id(), used, "battery"));
    said.path("sessions").forEach(used -> used(kept.id(), used, "session"));
  }

  /** What a decision was made on must be there as it was. */
  private void used(UUID decision, JsonNode used, String kind) {
    String id = used.path(kind + "Id").asString("");
    if (!contentSha256(kind, id).equals(used.path("sha256").asString(""))) {
      String name = kind.equals("battery") ? "battery" : "training entry";
      findings.add(
          "the %s %s is not what the decision %s was made on".formatted(name, id, decision));
    }
  }

  private String contentSha256(String kind, String id) {
    UUID known;
    try {
      known = UUID.fromString(id);
    } catch (IllegalArgumentException damaged) {
      return "";
    }
    return store.read(
        reading ->
            kind.equals("battery")
                ? reading.battery(clinic, known).map(StoredBattery::contentSha256).orElse("")
                : reading.sessions(clinic).byId(known).map(one -> one.contentSha256()).orElse(""));
  }
}
