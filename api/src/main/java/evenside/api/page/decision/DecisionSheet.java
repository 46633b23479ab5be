package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Drawing;
import evenside.api.drawing.Mark;
import evenside.api.page.Figures;
import evenside.api.page.Terms;
import evenside.api.page.Texts;
import java.util.List;
import java.util.OptionalLong;
import tools.jackson.databind.JsonNode;

/**
 * A decision on one sheet: what came out, why, what to do next, and how to prove it.
 *
 * @param milestone the milestone, in words
 * @param outcome the outcome, in words
 * @param mark the same as a mark
 * @param why the outcome in one sentence
 * @param decisive required criteria that are not met or undetermined, each with its reason
 * @param urgent what must be acted on now, before all else
 * @param next what to do, in order
 * @param criteria required criteria in the order of the set
 * @param groups groups of criteria of which not all are needed, with how they stand
 * @param informative criteria that never change the outcome
 * @param cautions what to keep in mind
 * @param determinations what clinicians said on it, the first first
 * @param about the case, the days and the set, by name
 * @param proof version, fingerprints and places, by name
 * @param decisionId identifier
 */
public record DecisionSheet(
    String milestone,
    String outcome,
    Mark mark,
    String why,
    List<Criterion> decisive,
    List<Caution> urgent,
    List<Step> next,
    List<Criterion> criteria,
    List<String> groups,
    List<Criterion> informative,
    List<Caution> cautions,
    List<Determination> determinations,
    List<Fact> about,
    List<Fact> proof,
    String decisionId) {
  /** A name and what it holds. */
  public record Fact(String name, String value, boolean code) {}

  /** Something to keep in mind, with its source or an empty text. */
  public record Caution(String text, String source) {}

  /** Something to do: about what, and what. */
  public record Step(String about, String what) {}

  /** Keeps its own copies. */
  public DecisionSheet {
    decisive = List.copyOf(decisive);
    urgent = List.copyOf(urgent);
    next = List.copyOf(next);
    criteria = List.copyOf(criteria);
    groups = List.copyOf(groups);
    informative = List.copyOf(informative);
    cautions = List.copyOf(cautions);
    determinations = List.copyOf(determinations);
    about = List.copyOf(about);
    proof = List.copyOf(proof);
  }

  /**
   * The sheet of a decision.
   *
   * @param decision the document as recorded
   * @param sha256 fingerprint of its bytes
   * @param determinations the list of determinations on it
   * @param corrected those of its batteries that were corrected since
   * @param entry its place in the ledger, if it has one
   * @param terms names of codes
   */
  public static DecisionSheet of(
      JsonNode decision,
      String sha256,
      JsonNode determinations,
      List<JsonNode> corrected,
      OptionalLong entry,
      Terms terms) {
    CriterionReader reader = new CriterionReader(terms);
    String outcome = decision.path("outcome").asString();
    List<Criterion> criteria = reader.leaves(decision.path("finding"));
    List<Criterion> decisive =
        criteria.stream().filter(one -> one.mark() != Mark.MET).filter(Criterion::judged).toList();
    return new DecisionSheet(
        terms.milestone(decision.path("criteriaSet").path("milestone").asString()),
        Texts.known("outcome", outcome),
        Mark.of(outcome),
        Summary.why(Mark.of(outcome), criteria),
        decisive,
        Cautions.urgent(decision.path("cautions")),
        NextSteps.of(decision, corrected),
        criteria,
        reader.groups(decision.path("finding")),
        decision.path("informative").valueStream().map(one -> reader.read(one)).toList(),
        Cautions.others(decision.path("cautions")),
        Determination.all(determinations),
        about(decision),
        proof(decision, sha256, entry),
        decision.path("decisionId").asString());
  }

  /** The drawing of its mark. */
  public Drawing drawnMark() {
    return mark.drawing();
  }

  /** Required criteria that are not met. */
  public List<Criterion> notMet() {
    return decisive.stream().filter(one -> one.mark() == Mark.NOT_MET).toList();
  }

  /** Required criteria that cannot be judged yet. */
  public List<Criterion> missing() {
    return decisive.stream().filter(one -> one.mark() == Mark.UNDETERMINED).toList();
  }

  private static List<Fact> about(JsonNode decision) {
    JsonNode set = decision.path("criteriaSet");
    return List.of(
        plain("case", decision.path("caseId").asString()),
        plain("as-of", Figures.day(decision.path("asOf").asString())),
        plain("tests", Summary.batteries(decision)),
        plain(
            "set",
            text(
                "decision.set.version",
                set.path("title").asString(),
                set.path("version").asString())),
        plain("source", set.path("source").asString("")),
        plain("designed-for", set.path("designedFor").asString("")),
        plain("population", set.path("population").asString("")));
  }

  private static List<Fact> proof(JsonNode decision, String sha256, OptionalLong entry) {
    JsonNode set = decision.path("criteriaSet");
    return List.of(
        code("decision", decision.path("decisionId").asString()),
        plain("decided-at", Figures.moment(decision.path("decidedAt").asString())),
        plain("engine", decision.path("engineVersion").asString()),
        code("fingerprint", sha256),
        code("inputs", decision.path("inputsSha256").asString()),
        code("set-name", set.path("id").asString() + "/" + set.path("version").asString()),
        code("set-fingerprint", set.path("sha256").asString()),
        plain(
            "entry",
            entry.isPresent()
                ? text("decision.entry", entry.getAsLong())
                : text("decision.no-entry")));
  }

  private static Fact plain(String key, String value) {
    return new Fact(text("decision.fact." + key), value, false);
  }

  private static Fact code(String key, String value) {
    return new Fact(text("decision.fact." + key), value, true);
  }
}
