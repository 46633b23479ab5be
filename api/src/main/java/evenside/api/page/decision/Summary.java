package evenside.api.page.decision;

import static evenside.api.page.Texts.text;

import evenside.api.drawing.Mark;
import evenside.api.page.Figures;
import evenside.api.page.Texts;
import java.util.List;
import java.util.StringJoiner;
import tools.jackson.databind.JsonNode;

/** A decision in few words. */
final class Summary {
  private Summary() {}

  /** How many criteria stand how. */
  static String why(Mark outcome, List<Criterion> criteria) {
    long met = criteria.stream().filter(one -> one.mark() == Mark.MET).count();
    long notMet = criteria.stream().filter(one -> one.mark() == Mark.NOT_MET).count();
    long open = criteria.size() - met - notMet;
    StringJoiner words = new StringJoiner(" ");
    words.add(text("decision.why." + outcome.code(), met, criteria.size()));
    if (notMet > 0) {
      words.add(Texts.counted("decision.count.not-met", (int) notMet));
    }
    if (open > 0) {
      words.add(Texts.counted("decision.count.undetermined", (int) open));
    }
    return words.toString();
  }

  /** The days of tests it rests on. */
  static String batteries(JsonNode decision) {
    StringJoiner days = new StringJoiner("; ");
    for (JsonNode battery : decision.path("batteries")) {
      days.add(
          text(
              "decision.battery",
              Figures.dayOf(battery.path("performedAt").asString()),
              Texts.counted("decision.days", battery.path("ageDays").asInt())));
    }
    return days.length() == 0 ? text("decision.no-battery") : days.toString();
  }
}
