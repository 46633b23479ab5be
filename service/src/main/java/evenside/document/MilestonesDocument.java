package evenside.document;

import evenside.criteria.Finding;
import evenside.criteria.ToMeet;
import evenside.criteria.Truth;
import evenside.decision.Caution;
import evenside.decision.Decision;
import evenside.decision.Engine;
import evenside.decision.Milestone;
import java.time.LocalDate;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Where a case stands on each milestone, as JSON. */
public final class MilestonesDocument {
  private MilestonesDocument() {}

  /**
   * Where a case stands.
   *
   * @param caseId the case
   * @param asOf the date looked at
   * @param entries one for each milestone, in their usual order
   */
  public record Overview(
      String schemaVersion, String caseId, LocalDate asOf, List<Entry> entries) {}

  /**
   * One milestone.
   *
   * @param milestone which
   * @param decision by its usual set, or null if it has none
   * @param latest the newest decision recorded on it, or null
   */
  public record Entry(Milestone milestone, @Nullable Decision decision, @Nullable Latest latest) {}

  /**
   * A recorded decision in short.
   *
   * @param id of the decision
   * @param asOf the date decided for
   * @param outcome code
   * @param criteriaSet code of the set
   * @param criteriaVersion its version
   */
  public record Latest(
      String id, LocalDate asOf, String outcome, String criteriaSet, String criteriaVersion) {}

  public static Document of(Overview overview) {
    return Document.written(
        json -> {
          json.object().put("asOf", overview.asOf()).put("caseId", overview.caseId());
          DecisionDocument.cautions(json.name("cautions"), cautions(overview.entries()));
          json.put("engineVersion", Engine.VERSION);
          json.name("milestones").array(overview.entries(), MilestonesDocument::entry);
          json.put("schemaVersion", overview.schemaVersion()).end();
        });
  }

  /** Every caution of any milestone once. */
  private static Collection<Caution> cautions(List<Entry> entries) {
    Map<String, Caution> cautions = new LinkedHashMap<>();
    for (Entry entry : entries) {
      if (entry.decision() != null) {
        entry.decision().cautions().forEach(one -> cautions.putIfAbsent(one.code(), one));
      }
    }
    return cautions.values();
  }

  private static void entry(CanonicalWriter json, Entry entry) {
    json.object();
    if (entry.decision() == null) {
      undecided(json, entry);
    } else {
      decided(json, entry, entry.decision());
    }
    json.end();
  }

  /** A milestone held against its set. */
  private static void decided(CanonicalWriter json, Entry entry, Decision decision) {
    Milestone milestone = entry.milestone();
    DecisionDocument.criteriaSet(json.name("criteriaSet"), decision.criteriaSet());
    PlanDocument.earliestByTime(decision.finding())
        .ifPresent(day -> json.put("earliestByTime", day));
    latest(json, entry.latest());
    json.put("met", decision.required(Truth.MET).size()).put("milestone", milestone.code());
    criteria(json.name("notMet"), decision, Truth.NOT_MET);
    json.putIfAny("note", milestone.note());
    json.put("order", milestone.order()).put("outcome", decision.outcome().code());
    json.put("required", decision.finding().leaves().filter(leaf -> leaf.truth() != null).count());
    json.put("summary", decision.summary()).put("title", milestone.title());
    criteria(json.name("undetermined"), decision, Truth.UNDETERMINED);
  }

  /** A milestone without a usual set. */
  private static void undecided(CanonicalWriter json, Entry entry) {
    Milestone milestone = entry.milestone();
    latest(json, entry.latest());
    json.put("milestone", milestone.code()).putIfAny("note", milestone.note());
    json.put("order", milestone.order()).put("outcome", "no-usual-set");
    json.put("summary", "This milestone has no usual criteria set; name one to decide on it.");
    json.put("title", milestone.title());
  }

  private static void latest(CanonicalWriter json, @Nullable Latest latest) {
    if (latest != null) {
      json.name("latestDecision").object().put("asOf", latest.asOf());
      json.name("criteriaSet").object().put("id", latest.criteriaSet());
      json.put("version", latest.criteriaVersion()).end();
      json.put("decisionId", latest.id()).put("outcome", latest.outcome()).end();
    }
  }

  private static void criteria(CanonicalWriter json, Decision decision, Truth truth) {
    List<Finding> leaves =
        decision.finding().leaves().filter(leaf -> leaf.truth() == truth).toList();
    json.array(leaves, MilestonesDocument::criterion);
  }

  private static void criterion(CanonicalWriter json, Finding leaf) {
    json.object().put("criterion", leaf.id()).put("text", missing(leaf));
    json.put("title", leaf.title()).end();
  }

  private static String missing(Finding leaf) {
    ToMeet toMeet = leaf.toMeet();
    Finding.Reason reason = leaf.reason();
    if (toMeet != null) {
      return toMeet.text();
    }
    return reason == null ? leaf.title() : reason.text();
  }
}
