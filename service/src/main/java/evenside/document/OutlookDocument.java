package evenside.document;

import evenside.criteria.Finding;
import evenside.plan.Outlook;
import evenside.trend.Interval;
import evenside.trend.Projection;
import java.time.LocalDate;

/** When a criterion would be met, as JSON. */
final class OutlookDocument {
  private static final double DAYS = 7;

  private final LocalDate surgery;

  OutlookDocument(LocalDate surgery) {
    this.surgery = surgery;
  }

  void write(CanonicalWriter json, Outlook outlook) {
    Finding finding = outlook.finding();
    Projection projection = outlook.projection();
    LocalDate gate = outlook.gate();
    json.object();
    if (projection instanceof Projection.Reached reached) {
      json.put("certain", false).put("criterion", finding.id());
      json.put("date", day(reached.weeks())).put("level", Outlook.LEVEL);
      days(json.name("line"), reached.line(), reached.limit());
      json.put("notBeyond", lastDay(reached.limit()));
    } else if (gate != null) {
      json.put("certain", true).put("criterion", finding.id()).put("date", gate);
    } else {
      json.put("criterion", finding.id());
    }
    json.put("outcome", FindingDocument.outcome(finding));
    if (outlook.readings() > 0) {
      json.put("readings", outlook.readings());
    }
    if (projection instanceof Projection.Refused refused) {
      json.name("refused").object().put("code", refused.reason().code());
      json.put("text", refused.text()).end();
    }
    if (projection instanceof Projection.Reached reached) {
      days(json.name("singleTest"), reached.singleTest(), reached.limit());
    }
    json.put("title", finding.title()).end();
  }

  private void days(CanonicalWriter json, Interval weeks, double limit) {
    json.object().put("earliest", lastDay(weeks.low()));
    if (weeks.high() <= limit) {
      json.put("latest", day(weeks.high()));
    }
    json.end();
  }

  /** The first day by which that many weeks have passed. */
  private LocalDate day(double weeks) {
    return surgery.plusDays((long) Math.ceil(weeks * DAYS));
  }

  private LocalDate lastDay(double weeks) {
    return surgery.plusDays((long) Math.floor(weeks * DAYS));
  }
}
