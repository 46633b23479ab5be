package evenside.document;

import evenside.criteria.About;
import evenside.criteria.Bound;
import evenside.criteria.Citation;
import evenside.criteria.Criterion;
import evenside.criteria.ErrorBand;
import evenside.criteria.Finding;
import evenside.criteria.ToMeet;
import evenside.measure.Input;
import evenside.measure.MeasurementError;
import evenside.measure.ReferenceValue;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** A finding, with all that it rests on, as JSON. */
final class FindingDocument {
  private static final Fragments<Citation> CITATIONS = new Fragments<>(FindingDocument::citation);
  private static final Fragments<Criterion.Leaf> BOUNDS =
      new Fragments<>((json, criterion) -> bound(json, criterion.asked()));

  private final CanonicalWriter json;
  private final long asOf;

  FindingDocument(CanonicalWriter json, LocalDate asOf) {
    this.json = json;
    this.asOf = asOf.toEpochDay();
  }

  void findings(List<Finding> findings) {
    json.array();
    for (Finding finding : findings) {
      finding(finding);
    }
    json.end();
  }

  void finding(Finding finding) {
    if (finding.criterion() instanceof Criterion.Leaf leaf) {
      ofLeaf(finding, leaf);
    } else {
      ofGroup(finding);
    }
  }

  private void ofGroup(Finding finding) {
    json.object().put("id", finding.id()).name("of");
    findings(finding.of());
    json.put("outcome", outcome(finding)).put("required", finding.required());
    json.put("title", finding.title()).put("type", finding.type()).end();
  }

  private void ofLeaf(Finding finding, Criterion.Leaf leaf) {
    About about = leaf.about();
    json.object();
    bound(json.name("bound"), leaf);
    json.name("citation").written(CITATIONS.of(about.citation()));
    context(finding.context());
    json.put("id", about.id());
    inputs(finding.inputs());
    Quantity margin = finding.margin();
    if (margin != null) {
      quantity(json.name("margin"), margin);
    }
    ErrorBand error = finding.error();
    if (error != null) {
      error(error);
    }
    json.putIfAny("note", about.note()).put("outcome", outcome(finding));
    reason(finding);
    json.put("required", finding.required());
    sessions(finding.sessions());
    json.put("title", about.title());
    ToMeet toMeet = finding.toMeet();
    if (toMeet != null) {
      toMeet(toMeet, finding.leftOpenBy());
    }
    json.put("type", leaf.type());
    Value value = finding.value();
    if (value != null) {
      value(json.name("value"), value);
    }
    json.put("verified", about.verified()).end();
  }

  private void context(List<ReferenceValue> context) {
    if (!context.isEmpty()) {
      json.name("context").array();
      for (ReferenceValue value : context) {
        ReferenceDocument.write(json, value);
      }
      json.end();
    }
  }

  private void reason(Finding finding) {
    Finding.Reason reason = finding.reason();
    if (reason != null) {
      json.name("reason").object().put("code", reason.code()).put("text", reason.text()).end();
    }
  }

  private void inputs(List<Input> inputs) {
    json.name("inputs").array();
    for (Input input : inputs) {
      input(input);
    }
    json.end();
  }

  private void input(Input input) {
    json.object().put("ageDays", ageDays(input.performedOn()));
    json.put("aggregation", input.aggregation().code()).put("batteryId", input.batteryId());
    json.put("measure", input.measure()).put("performedOn", input.performedOn());
    json.put("pointer", input.pointer());
    ProtocolDocument.write(json.name("protocol"), input.protocol());
    if (input.origin() != null) {
      ScoreDocument.origin(json.name("questionnaire"), input.origin());
    }
    if (input.side() != null) {
      json.put("role", input.operated() ? "operated" : "other").put("side", input.side().code());
    }
    value(json.name("value"), input.value());
    if (input.origin() != null) {
      json.put("valueSource", input.origin().valueSource());
    }
    json.end();
  }

  private void sessions(List<TrainingFact.Use> sessions) {
    if (!sessions.isEmpty()) {
      json.name("sessions").array();
      for (TrainingFact.Use use : sessions) {
        json.object().put("ageDays", ageDays(use.performedOn()));
        json.put("performedOn", use.performedOn()).put("sessionId", use.session()).end();
      }
      json.end();
    }
  }

  private long ageDays(LocalDate day) {
    return asOf - day.toEpochDay();
  }

  private void toMeet(ToMeet toMeet, Finding.@Nullable Reason leftOpenBy) {
    json.name("toMeet").object();
    if (toMeet.date() != null) {
      json.put("date", toMeet.date());
    }
    if (leftOpenBy != null) {
      json.put("leftOpenBy", leftOpenBy.code());
    }
    boolean compared = toMeet.quantity() != null && toMeet.comparator() != null;
    if (compared && toMeet.operatedLeg()) {
      compared(json.name("operated"), toMeet);
    }
    json.put("text", toMeet.text());
    if (compared && !toMeet.operatedLeg()) {
      compared(json.name("value"), toMeet);
    }
    json.end();
  }

  private static void compared(CanonicalWriter json, ToMeet toMeet) {
    bound(
        json,
        new Bound(
            toMeet.comparator(), new Value.Amount(Objects.requireNonNull(toMeet.quantity()))));
  }

  private void error(ErrorBand band) {
    MeasurementError error = band.error();
    json.name("measurementError").object();
    studiedAggregation(json, error);
    json.put("clearOfBoundAt", band.clearAt()).put("high", band.high()).put("low", band.low());
    json.put("population", error.population());
    quantity(json.name("sem"), band.sem(), band.valueUnit());
    json.put("source", error.source()).put("verified", error.verified());
    json.put("withinErrorOfBound", band.boundWithin()).put("z", error.z()).end();
  }

  /** A reader can then tell whether the error is of scores joined as these were. */
  static void studiedAggregation(CanonicalWriter json, MeasurementError error) {
    if (error.aggregation() != null) {
      json.put("aggregation", error.aggregation().code());
    }
  }

  static String outcome(Finding finding) {
    return finding.truth() == null ? "not-applicable" : finding.truth().code();
  }

  /** What a criterion asks for. */
  static void bound(CanonicalWriter json, Criterion.Leaf criterion) {
    json.written(BOUNDS.of(criterion));
  }

  private static void bound(CanonicalWriter json, Bound bound) {
    json.object();
    if (bound.comparator() != null) {
      json.put("comparator", bound.comparator().symbol());
    }
    if (bound.value() instanceof Value.Amount number) {
      json.put("unit", number.quantity().unit()).put("value", number.quantity().value());
    } else {
      value(json.name("value"), bound.value());
    }
    json.end();
  }

  static void value(CanonicalWriter json, Value value) {
    if (value instanceof Value.Amount number) {
      quantity(json, number.quantity());
    } else if (value instanceof Value.Grade grade) {
      json.text(grade.grade().code());
    } else {
      json.flag(((Value.Fact) value).holds());
    }
  }

  static void quantity(CanonicalWriter json, Quantity quantity) {
    quantity(json, quantity.value(), quantity.unit());
  }

  static void quantity(CanonicalWriter json, double value, String unit) {
    json.object().put("unit", unit).put("value", value).end();
  }

  private static void citation(CanonicalWriter json, Citation citation) {
    json.object().putIfAny("doi", citation.doi()).putIfAny("place", citation.place());
    json.putIfAny("printedAs", citation.printedAs());
    json.put("source", citation.key()).put("text", citation.text()).end();
  }
}
