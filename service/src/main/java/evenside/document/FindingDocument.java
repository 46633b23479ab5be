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

/** A finding, with all that it rests on, as JSON. */
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
    ObjectNode json = JSON.objectNode();
    json.put("id", finding.id());
    json.put("type", finding.type());
    json.put("title", finding.title());
    json.put("outcome", finding.truth() == null ? "not-applicable" : finding.truth().code());
    json.put("required", finding.required());
    About about = finding.about();
    if (about == null) {
      json.set("of", findings(finding.of()));
      return json;
    }
    if (finding.value() != null) {
      value(json, "value", finding.value());
    }
    if (finding.bound() != null) {
      json.set("bound", bound(finding.bound()));
    }
    if (finding.margin() != null) {
      json.set("margin", quantity(finding.margin()));
    }
    if (finding.toMeet() != null) {
      json.set("toMeet", toMeet(finding.toMeet()));
    }
    if (finding.error() != null) {
      json.set("measurementError", error(finding.error()));
    }
    if (!finding.context().isEmpty()) {
      ArrayNode context = json.putArray("context");
      finding.context().forEach(value -> context.add(ReferenceDocument.of(value)));
    }
    ArrayNode inputs = json.putArray("inputs");
    finding.inputs().forEach(input -> inputs.add(input(input)));
    if (!finding.sessions().isEmpty()) {
      ArrayNode sessions = json.putArray("sessions");
      finding.sessions().forEach(use -> sessions.add(session(use)));
    }
    if (finding.reason() != null) {
      json.putObject("reason")
          .put("code", finding.reason().code())
          .put("text", finding.reason().text());
    }
    json.set("citation", citation(about.citation()));
    json.put("verified", about.verified());
    if (about.note() != null) {
      json.put("note", about.note());
    }
    return json;
  }

  static ObjectNode bound(Bound bound) {
    ObjectNode json = JSON.objectNode();
    if (bound.comparator() != null) {
      json.put("comparator", bound.comparator().symbol());
    }
    if (bound.value() instanceof Value.Amount number) {
      json.put("value", number.quantity().value()).put("unit", number.quantity().unit());
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
    return JSON.objectNode().put("value", quantity.value()).put("unit", quantity.unit());
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
    ObjectNode json = JSON.objectNode().put("source", citation.key()).put("text", citation.text());
    if (citation.doi() != null) {
      json.put("doi", citation.doi());
    }
    if (citation.place() != null) {
      json.put("place", citation.place());
    }
    if (citation.printedAs() != null) {
      json.put("printedAs", citation.printedAs());
    }
    return json;
  }

  private ObjectNode input(Input input) {
    ObjectNode json = JSON.objectNode();
    json.put("batteryId", input.batteryId());
    json.put("pointer", input.pointer());
    json.put("measure", input.measure());
    if (input.side() != null) {
      json.put("side", input.side().code());
      json.put("role", input.operated() ? "operated" : "other");
    }
    value(json, "value", input.value());
    json.set("protocol", protocol(input.protocol()));
    json.put("aggregation", input.aggregation().code());
    if (input.origin() != null) {
      json.put("valueSource", input.origin().valueSource());
      json.set("questionnaire", ScoreDocument.origin(input.origin()));
    }
    json.put("performedOn", input.performedOn().toString());
    json.put("ageDays", ChronoUnit.DAYS.between(input.performedOn(), asOf));
    return json;
  }

  private ObjectNode session(TrainingFact.Use use) {
    ObjectNode json = JSON.objectNode().put("sessionId", use.session());
    json.put("performedOn", use.performedOn().toString());
    return json.put("ageDays", ChronoUnit.DAYS.between(use.performedOn(), asOf));
  }

  private static ObjectNode toMeet(ToMeet toMeet) {
    ObjectNode json = JSON.objectNode().put("text", toMeet.text());
    if (toMeet.quantity() != null && toMeet.comparator() != null) {
      ObjectNode needed =
          quantity(toMeet.quantity()).put("comparator", toMeet.comparator().symbol());
      json.set(toMeet.operatedLeg() ? "operated" : "value", needed);
    }
    if (toMeet.date() != null) {
      json.put("date", toMeet.date().toString());
    }
    return json;
  }

  private static ObjectNode error(ErrorBand band) {
    ObjectNode json = JSON.objectNode();
    json.set("sem", quantity(new Quantity(band.sem(), band.valueUnit())));
    json.put("z", band.error().z());
    json.put("low", band.low()).put("high", band.high());
    json.put("withinErrorOfBound", band.boundWithin());
    json.put("clearOfBoundAt", band.clearAt());
    json.put("population", band.error().population());
    json.put("source", band.error().source());
    json.put("verified", band.error().verified());
    studiedAggregation(json, band.error());
    return json;
  }

  /** A reader can then tell whether the error is of scores joined as these were. */
  static void studiedAggregation(ObjectNode json, MeasurementError error) {
    if (error.aggregation() != null) {
      json.put("aggregation", error.aggregation().code());
    }
  }
}
