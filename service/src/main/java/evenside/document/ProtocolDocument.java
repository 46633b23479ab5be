package evenside.document;

import evenside.measure.Protocol;
import evenside.quantity.Quantity;

/** How a test was done, as JSON. The terms have the names that were sent, in their order. */
final class ProtocolDocument {
  private ProtocolDocument() {}

  static void write(CanonicalWriter json, Protocol protocol) {
    json.object();
    protocol.terms().forEach((name, term) -> term(json.anyName(name), name, term));
    json.end();
  }

  private static void term(CanonicalWriter json, String name, Object term) {
    if (term instanceof Double number) {
      number(json, name, number);
    } else if (term instanceof Boolean flag) {
      json.flag(flag);
    } else if (term instanceof Quantity quantity) {
      FindingDocument.quantity(json, quantity);
    } else {
      json.text(term.toString());
    }
  }

  private static void number(CanonicalWriter json, String name, double number) {
    switch (name) {
      case Protocol.SPEED -> FindingDocument.quantity(json, number, "deg/s");
      case Protocol.ANGLE -> FindingDocument.quantity(json, number, "deg");
      default -> json.number(number);
    }
  }
}
