package evenside.document;

import evenside.criteria.About;
import evenside.criteria.Bound;
import evenside.criteria.Citation;
import evenside.criteria.ErrorBand;
import evenside.criteria.Finding;
import evenside.criteria.ToMeet;
import evenside.measure.Input;
import evenside.measure.MeasurementError;
import evenside.measure.Protocol;
import evenside.measure.TrainingFact;
import evenside.measure.Value;
import evenside.quantity.Quantity;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A finding, with all that it rests on, as JSON. Members are put in the order of their names, in
 * which they are written: sorting them again is a good part of what an answer costs.
 */
final class FindingDocument {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final LocalDate asOf;

  FindingDocument(LocalDate asOf) {
    this.asOf = asOf;
  }

  ArrayNode findings(List<Finding> findings) {
    ArrayNode array = JSON.arrayNode();
    findings.forEach(finding -> array.add(finding(finding)));
    return array;
  }

  ObjectNode finding(Finding finding) {
    About about = finding.about();
    return about == null ? ofGroup(finding) : ofLeaf(finding, about);
  }

  private ObjectNode ofGroup(Finding finding) {
    ObjectNode json = JSON.objectNode();
    json.put("id", finding.id());
    json.set("of", findings(finding.of()));
    json.put("outcome", outcome(finding));
    json.put("required", finding.required());
    return json.put("title", finding.title()).put("type", finding.type());
  }

  private ObjectNode ofLeaf(Finding finding, About about) {
    ObjectNode json = JSON.objectNode();
    if (finding.bound() != null) {
      json.set("bound", bound(finding.bound()));
    }
    json.set("citation", citation(about.citation()));
    if (!finding.context().isEmpty()) {
      ArrayNode context = json.putArray("context");
      finding.context().forEach(value -> context.add(ReferenceDocument.of(value)));
    }
    json.put("id", finding.id());
    ArrayNode inputs = json.putArray("inputs");
    finding.inputs().forEach(input -> inputs.add(input(input)));
    if (finding.margin() != null) {
      json.set("margin", quantity(finding.margin()));
    }
    if (finding.error() != null) {
      json.set("measurementError", error(finding.error()));
    }
    if (about.note() != null) {
      json.put("note", about.note());
    }
    json.put("outcome", outcome(finding));
    reason(json, finding);
    json.put("required", finding.required());
    if (!finding.sessions().isEmpty()) {
      ArrayNode sessions = json.putArray("sessions");
      finding.sessions().forEach(use -> sessions.add(session(use)));
    }
    json.put("title", finding.title());
    if (finding.toMeet() != null) {
      json.set("toMeet", toMeet(finding.toMeet()));
    }
    json.put("type", finding.type());
    if (finding.value() != null) {
      value(json, "value", finding.value());
    }
    return json.put("verified", about.verified());
  }

  private static void reason(ObjectNode json, Finding finding) {
    if (finding.reason() != null) {
      json.putObject("reason")
          .put("code", finding.reason().code())
          .put("text", finding.reason().text());
    }
  }

  static String outcome(Finding finding) {
    return finding.truth() == null ? "not-applicable" : finding.truth().code();
  }

  static ObjectNode bound(Bound bound) {
    ObjectNode json = JSON.objectNode();
    if (bound.comparator() != null) {
      json.put("comparator", bound.comparator().symbol());
    }
    if (bound.value() instanceof Value.Amount number) {
      json.put("unit", number.quantity().unit()).put("value", number.quantity().value());
    } else {
      value(json, "value", bound.value());
    }
    return json;
  }

  static void value(ObjectNode into, String name, Value value) {
    if (value instanceof Value.Amount number) {
      into.set(name, quantity(number.quantity()));
    } else if (value instanceof Value.Grade grade) {
      into.put(name, grade.grade().code());
    } else if (value instanceof Value.Fact fact) {
      into.put(name, fact.holds());
    }
  }

  static ObjectNode quantity(Quantity quantity) {
    return JSON.objectNode().put("unit", quantity.unit()).put("value", quantity.value());
  }

  static ObjectNode protocol(Protocol protocol) {
    ObjectNode json = JSON.objectNode();
    protocol
        .terms()
        .forEach(
            (name, term) -> {
              switch (name) {
                case Protocol.SPEED ->
                    json.set(name, quantity(new Quantity((Double) term, "deg/s")));
                case Protocol.ANGLE -> json.set(name, quantity(new Quantity((Double) term, "deg")));
                default -> term(json, name, term);
              }
            });
    return json;
  }

  private static void term(ObjectNode json, String name, Object term) {
    if (term instanceof Boolean flag) {
      json.put(name, flag);
    } else if (term instanceof Double number) {
      json.put(name, number);
    } else if (term instanceof Quantity quantity) {
      json.set(name, quantity(quantity));
    } else {
      json.put(name, term.toString());
    }
  }

  static ObjectNode citation(Citation citation) {
    ObjectNode json = JSON.objectNode();
    if (citation.doi() != null) {
      json.put("doi", citation.doi());
    }
    if (citation.place() != null) {
      json.put("place", citation.place());
    }
    if (citation.printedAs() != null) {
      json.put("printedAs", citation.printedAs());
    }
    return json.put("source", citation.key()).put("text", citation.text());
  }

  private ObjectNode input(Input input) {
    ObjectNode json = JSON.objectNode();
    json.put("ageDays", ageDays(input.performedOn()));
    json.put("aggregation", input.aggregation().code());
    json.put("batteryId", input.batteryId());
    json.put("measure", input.measure());
    json.put("performedOn", input.performedOn().toString());
    json.put("pointer", input.pointer());
    json.set("protocol", protocol(input.protocol()));
    if (input.origin() != null) {
      json.set("questionnaire", ScoreDocument.origin(input.origin()));
    }
    if (input.side() != null) {
      json.put("role", input.operated() ? "operated" : "other");
      json.put("side", input.side().code());
    }
    value(json, "value", input.value());
    if (input.origin() != null) {
      json.put("valueSource", input.origin().valueSource());
    }
    return json;
  }

  private ObjectNode session(TrainingFact.Use use) {
    return JSON.objectNode()
        .put("ageDays", ageDays(use.performedOn()))
        .put("performedOn", use.performedOn().toString())
        .put("sessionId", use.session());
  }

  private long ageDays(LocalDate day) {
    return ChronoUnit.DAYS.between(day, asOf);
  }

  private static ObjectNode toMeet(ToMeet toMeet) {
    ObjectNode json = JSON.objectNode();
    if (toMeet.date() != null) {
      json.put("date", toMeet.date().toString());
    }
    if (toMeet.quantity() != null && toMeet.comparator() != null) {
      json.set(
          toMeet.operatedLeg() ? "operated" : "value",
          JSON.objectNode()
              .put("comparator", toMeet.comparator().symbol())
              .put("unit", toMeet.quantity().unit())
              .put("value", toMeet.quantity().value()));
    }
    return json.put("text", toMeet.text());
  }

  private static ObjectNode error(ErrorBand band) {
    ObjectNode json = JSON.objectNode();
    studiedAggregation(json, band.error());
    json.put("clearOfBoundAt", band.clearAt());
    json.put("high", band.high()).put("low", band.low());
    json.put("population", band.error().population());
    json.set("sem", quantity(new Quantity(band.sem(), band.valueUnit())));
    json.put("source", band.error().source());
    json.put("verified", band.error().verified());
    json.put("withinErrorOfBound", band.boundWithin());
    return json.put("z", band.error().z());
  }

  /** A reader can then tell whether the error is of scores joined as these were. */
  static void studiedAggregation(ObjectNode json, MeasurementError error) {
    if (error.aggregation() != null) {
      json.put("aggregation", error.aggregation().code());
    }
  }
}
