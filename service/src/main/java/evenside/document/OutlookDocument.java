package evenside.document;

import evenside.criteria.Finding;
import evenside.plan.Outlook;
import evenside.trend.Interval;
import evenside.trend.Projection;
import java.time.LocalDate;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** When a criterion would be met, as JSON. */
final class OutlookDocument {
  private static final double DAYS = 7;

  private final LocalDate surgery;

  OutlookDocument(LocalDate surgery) {
    this.surgery = surgery;
  }

  ObjectNode of(Outlook outlook) {
    Finding finding = outlook.finding();
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("criterion", finding.id()).put("title", finding.title());
    json.put("outcome", finding.truth() == null ? "not-applicable" : finding.truth().code());
    if (outlook.gate() != null) {
      json.put("date", outlook.gate().toString()).put("certain", true);
    }
    if (outlook.projection() instanceof Projection.Refused refused) {
      json.putObject("refused").put("code", refused.reason().code()).put("text", refused.text());
    }
    if (outlook.projection() instanceof Projection.Reached reached) {
      json.put("date", day(reached.weeks()).toString()).put("certain", false);
      json.set("line", days(reached.line(), reached.limit()));
      json.set("singleTest", days(reached.singleTest(), reached.limit()));
      json.put("level", Outlook.LEVEL);
      json.put("notBeyond", lastDay(reached.limit()).toString());
    }
    if (outlook.readings() > 0) {
      json.put("readings", outlook.readings());
    }
    return json;
  }

  private ObjectNode days(Interval weeks, double limit) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("earliest", lastDay(weeks.low()).toString());
    if (weeks.high() <= limit) {
      json.put("latest", day(weeks.high()).toString());
    }
    return json;
  }

  /** The first day by which that many weeks have passed. */
  private LocalDate day(double weeks) {
    return surgery.plusDays((long) Math.ceil(weeks * DAYS));
  }

  private LocalDate lastDay(double weeks) {
    return surgery.plusDays((long) Math.floor(weeks * DAYS));
  }
}
