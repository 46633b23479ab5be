package evenside.api.cdshooks;

import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A card made of a stored decision: how many criteria are met, and each of them in a table. */
public final class DecisionCard {
  /** CDS Hooks asks for fewer than 140 characters. */
  private static final int LONGEST_SUMMARY = 139;

  private DecisionCard() {}

  /** The answer when there is nothing to show. */
  public static ObjectNode none() {
    return cards();
  }

  /**
   * The answer with one card.
   *
   * @param decision a decision as recorded
   * @param corrected whether a battery behind it was corrected since
   * @param address address of this service, without a slash at its end
   */
  public static ObjectNode of(JsonNode decision, boolean corrected, String address) {
    ObjectNode all = cards();
    ObjectNode card = ((ArrayNode) all.path("cards")).addObject();
    String id = decision.path("decisionId").asString();
    List<JsonNode> findings = new ArrayList<>();
    collect(decision.path("finding"), findings);
    card.put("uuid", id).put("summary", summary(decision, findings));
    card.put("detail", detail(decision, corrected, findings));
    card.put("indicator", corrected ? "warning" : indicator(decision));
    JsonNode set = decision.path("criteriaSet");
    card.putObject("source")
        .put("label", set.path("title").asString() + ", version " + set.path("version").asString())
        .put(
            "url",
            address
                + "/v1/criteria-sets/"
                + set.path("id").asString()
                + "/"
                + set.path("version").asString());
    ArrayNode links = card.putArray("links");
    addLink(links, "The whole decision", address + "/v1/decisions/" + id);
    addLink(links, "Its proof, for auditors", address + "/v1/decisions/" + id + "/evidence");
    return all;
  }

  private static ObjectNode cards() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.putArray("cards");
    return json;
  }

  private static void addLink(ArrayNode links, String label, String url) {
    links.addObject().put("label", label).put("url", url).put("type", "absolute");
  }

  /** Single criteria; a group only joins them. */
  private static void collect(JsonNode finding, List<JsonNode> into) {
    if (finding.has("of")) {
      finding.path("of").forEach(part -> collect(part, into));
    } else if (!outcome(finding).equals("not-applicable")) {
      into.add(finding);
    }
  }

  private static String summary(JsonNode decision, List<JsonNode> findings) {
    String counted =
        "%s: %d of %d criteria met, %d not met, %d undetermined. %s"
            .formatted(
                inWords(decision.path("outcome").asString()),
                count(findings, "met"),
                findings.size(),
                count(findings, "not-met"),
                findings.size() - count(findings, "met") - count(findings, "not-met"),
                decision.at("/criteriaSet/title").asString());
    return counted.length() <= LONGEST_SUMMARY
        ? counted
        : counted.substring(0, LONGEST_SUMMARY - 1).stripTrailing() + "…";
  }

  private static int count(List<JsonNode> findings, String outcome) {
    return (int) findings.stream().filter(one -> outcome(one).equals(outcome)).count();
  }

  private static String outcome(JsonNode finding) {
    return finding.path("outcome").asString();
  }

  /** Never critical: a clinician decides, and nothing here cannot wait for that. */
  private static String indicator(JsonNode decision) {
    boolean urgent =
        decision
            .path("cautions")
            .valueStream()
            .anyMatch(caution -> caution.path("urgent").asBoolean(false));
    return decision.path("outcome").asString().equals("met") && !urgent ? "info" : "warning";
  }

  private static String detail(JsonNode decision, boolean corrected, List<JsonNode> findings) {
    StringBuilder text = new StringBuilder();
    text.append("As of ").append(decision.path("asOf").asString()).append(".\n\n");
    if (corrected) {
      text.append("Tests behind this decision were corrected since, so it rests on numbers that no")
          .append(" longer count. Ask for a new decision.\n\n");
    }
    for (JsonNode caution : decision.path("cautions")) {
      boolean first = caution.path("code").asString().equals("clinician-decides");
      if (first || caution.path("urgent").asBoolean(false)) {
        text.append(caution.path("text").asString()).append("\n\n");
      }
    }
    text.append("| Criterion | Result | Asked for | Outcome |\n|---|---|---|---|\n");
    for (JsonNode finding : findings) {
      text.append("| ")
          .append(cell(finding.path("title").asString()))
          .append(" | ")
          .append(cell(seen(finding)))
          .append(" | ")
          .append(cell(needed(finding.path("bound"))))
          .append(" | ")
          .append(inWords(outcome(finding)).toLowerCase(java.util.Locale.ROOT))
          .append(" |\n");
    }
    return text.toString();
  }

  /** As it is read, and never rounded onto its bound. */
  private static String seen(JsonNode finding) {
    JsonNode value = finding.path("value");
    JsonNode bound = finding.path("bound").path("value");
    if (value.isMissingNode()) {
      return "no result";
    }
    return value.isObject() && bound.isNumber()
        ? Figures.beside(value.path("value").asDouble(), bound.asDouble())
            + Figures.unit(value.path("unit").asString(""))
        : Figures.value(value);
  }

  private static String needed(JsonNode bound) {
    if (bound.isMissingNode()) {
      return "";
    }
    String comparator = bound.path("comparator").asString("");
    String sign = comparator.equals("=") ? "" : Texts.known("sign", comparator);
    JsonNode value = bound.has("unit") ? bound : bound.path("value");
    return (sign + " " + Figures.value(value)).strip();
  }

  private static String inWords(String outcome) {
    return switch (outcome) {
      case "met" -> "Met";
      case "not-met" -> "Not met";
      default -> "Undetermined";
    };
  }

  private static String cell(String text) {
    return text.replace("|", "\\|").replace("<", "&lt;");
  }
}
