package evenside.criteria;

import evenside.knee.Sex;
import evenside.knee.Yardstick;
import evenside.measure.Aggregation;
import evenside.measure.Aspect;
import evenside.measure.Better;
import evenside.measure.Evidence;
import evenside.measure.Input;
import evenside.measure.Measure;
import evenside.measure.MeasureCatalogue;
import evenside.measure.Measured;
import evenside.measure.Protocol;
import evenside.measure.ProtocolRule;
import evenside.measure.Value;
import io.github.jamsesso.jsonlogic.JsonLogic;
import io.github.jamsesso.jsonlogic.JsonLogicException;
import java.io.StringReader;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import org.kie.api.KieServices;
import org.kie.dmn.api.core.DMNContext;
import org.kie.dmn.api.core.DMNModel;
import org.kie.dmn.api.core.DMNRuntime;
import org.kie.dmn.core.internal.utils.DMNRuntimeBuilder;

/**
 * One table of twelve criteria, invented for the comparison, in three evaluators: ours, a general
 * DMN engine (decision table with the hit policy COLLECT) and a general JSON-rule engine. Each says
 * which criteria are not met.
 */
final class TwelveCriteria {
  private static final int COUNT = 12;
  private static final String UNIT = "%";
  private static final LocalDate DAY = LocalDate.of(2026, 6, 1);
  private static final Instant NOON = Instant.parse("2026-06-01T12:00:00Z");

  private final List<NumberBound> cutOffs = new ArrayList<>();
  private final Criterion set;
  private final DMNRuntime dmn;
  private final DMNModel model;
  private final JsonLogic logic = new JsonLogic();
  private final Map<String, String> rules = new LinkedHashMap<>();

  TwelveCriteria() {
    MeasureCatalogue catalogue = new MeasureCatalogue(measures(), List.of());
    Citation nowhere = new Citation("invented", "invented", null, null, null);
    for (Measure measure : catalogue.all()) {
      int i = cutOffs.size();
      Comparator comparator = Comparator.values()[i % Comparator.values().length];
      cutOffs.add(
          new NumberBound(
              new About("c" + i, measure.title(), nowhere, true, null, null),
              catalogue.entry(measure.code()),
              Aspect.VALUE,
              ProtocolRule.ANY,
              comparator,
              80 + 2.5 * i,
              UNIT));
    }
    set = new Criterion.AllOf("all", "all", List.copyOf(cutOffs));
    dmn =
        DMNRuntimeBuilder.fromDefaults()
            .buildConfiguration()
            .fromResources(
                List.of(
                    KieServices.get().getResources().newReaderResource(new StringReader(xml()))))
            .getOrElseThrow(IllegalStateException::new);
    model = dmn.getModels().get(0);
    cutOffs.forEach(one -> rules.put(one.id(), rule(one)));
  }

  private static List<Measure> measures() {
    List<Measure> measures = new ArrayList<>();
    for (int i = 0; i < COUNT; i++) {
      String code = "m" + i;
      measures.add(
          new Measure(
              code,
              code,
              "hopDistance",
              UNIT,
              false,
              Better.HIGHER,
              Measure.SymmetryRule.NONE,
              Aggregation.BEST,
              0,
              1000,
              false));
    }
    return measures;
  }

  /** Twelve numbers, by measure; some lie exactly on a bound. */
  Map<String, Double> numbers(RandomGenerator random) {
    Map<String, Double> numbers = new LinkedHashMap<>();
    for (NumberBound cutOff : cutOffs) {
      boolean onBound = random.nextInt(10) == 0;
      double free = random.nextInt(6000, 12000) / 100.0;
      numbers.put(cutOff.measure(), onBound ? cutOff.bound() : free);
    }
    return numbers;
  }

  /** The numbers as our evaluator takes them. */
  Evidence evidence(Map<String, Double> numbers) {
    List<Measured> measured = new ArrayList<>();
    numbers.forEach(
        (measure, number) ->
            measured.add(
                new Measured(
                    measure,
                    Aspect.VALUE,
                    Value.Amount.of(number, UNIT),
                    Protocol.NONE,
                    NOON,
                    DAY,
                    List.of(input(measure, number)),
                    null)));
    return new Evidence(
        DAY.minusMonths(9), Sex.NOT_STATED, Yardstick.SOUND, DAY, null, measured, List.of());
  }

  private static Input input(String measure, double number) {
    return new Input(
        "battery",
        "/results/" + measure,
        measure,
        null,
        false,
        Value.Amount.of(number, UNIT),
        Protocol.NONE,
        Aggregation.BEST,
        null,
        DAY);
  }

  /** The whole finding, with the value, the margin and the reason of every criterion. */
  Finding finding(Evidence evidence) {
    return set.evaluate(evidence, true);
  }

  /** All that the findings can say, the texts too; gives their length, so that all is made. */
  int inWords(Evidence evidence) {
    int length = 0;
    for (Finding leaf : finding(evidence).leaves().toList()) {
      ToMeet toMeet = leaf.toMeet();
      Finding.Reason reason = leaf.reason();
      length += String.valueOf(leaf.value()).length() + String.valueOf(leaf.bound()).length();
      length += String.valueOf(leaf.margin()).length() + leaf.title().length();
      length += leaf.inputs().size() + leaf.context().size() + (leaf.error() == null ? 0 : 1);
      length += toMeet == null ? 0 : toMeet.text().length();
      length += reason == null ? 0 : reason.text().length();
    }
    return length;
  }

  /** Ids of what is not met. */
  List<String> notMet(Evidence evidence) {
    return finding(evidence).ids(Truth.NOT_MET);
  }

  /** The numbers as the DMN engine takes them: decimal, by name. */
  static Map<String, Object> decimals(Map<String, Double> numbers) {
    Map<String, Object> decimals = new HashMap<>();
    numbers.forEach((name, number) -> decimals.put(name, BigDecimal.valueOf(number)));
    return decimals;
  }

  /** The same question to the DMN engine. */
  List<String> byDmn(Map<String, Object> decimals) {
    DMNContext context = dmn.newContext();
    decimals.forEach(context::set);
    Object hits = dmn.evaluateAll(model, context).getDecisionResults().get(0).getResult();
    if (hits instanceof List<?> several) {
      return several.stream().map(String::valueOf).toList();
    }
    return hits == null ? List.of() : List.of(String.valueOf(hits));
  }

  /** The same question to the JSON-rule engine. */
  List<String> byJsonLogic(Map<String, Double> numbers) {
    List<String> notMet = new ArrayList<>();
    try {
      for (Map.Entry<String, String> rule : rules.entrySet()) {
        if (JsonLogic.truthy(logic.apply(rule.getValue(), numbers))) {
          notMet.add(rule.getKey());
        }
      }
    } catch (JsonLogicException e) {
      throw new IllegalStateException(e);
    }
    return notMet;
  }

  /** What is true where the criterion is not met. */
  private static String failing(Comparator comparator) {
    return switch (comparator) {
      case ABOVE -> "<=";
      case AT_LEAST -> "<";
      case BELOW -> ">=";
      case AT_MOST -> ">";
    };
  }

  private static String rule(NumberBound cutOff) {
    return "{\"%s\":[{\"var\":\"%s\"},%s]}"
        .formatted(failing(cutOff.comparator()), cutOff.measure(), cutOff.bound());
  }

  private String xml() {
    StringBuilder xml = new StringBuilder();
    xml.append("<definitions xmlns=\"https://www.omg.org/spec/DMN/20191111/MODEL/\"");
    xml.append(" id=\"d\" name=\"twelve\" namespace=\"https://evenside.example/bench\">");
    cutOffs.forEach(
        one ->
            xml.append("<inputData id=\"d_%1$s\" name=\"%1$s\">".formatted(one.measure()))
                .append("<variable name=\"%s\" typeRef=\"number\"/>".formatted(one.measure()))
                .append("</inputData>"));
    xml.append("<decision id=\"notMet\" name=\"notMet\"><variable name=\"notMet\"/>");
    cutOffs.forEach(
        one ->
            xml.append(
                "<informationRequirement id=\"r_%1$s\"><requiredInput href=\"#d_%1$s\"/></informationRequirement>"
                    .formatted(one.measure())));
    xml.append("<decisionTable id=\"t\" hitPolicy=\"COLLECT\">");
    cutOffs.forEach(
        one ->
            xml.append(
                "<input id=\"i_%1$s\"><inputExpression id=\"e_%1$s\" typeRef=\"number\"><text>%1$s</text></inputExpression></input>"
                    .formatted(one.measure())));
    xml.append("<output id=\"o\" typeRef=\"string\"/>");
    for (NumberBound rule : cutOffs) {
      xml.append("<rule id=\"r_%s\">".formatted(rule.id()));
      for (NumberBound column : cutOffs) {
        String test =
            column == rule ? failing(rule.comparator()).replace("<", "&lt;") + rule.bound() : "-";
        xml.append("<inputEntry id=\"x_%s_%s\">".formatted(rule.id(), column.id()));
        xml.append("<text>").append(test).append("</text></inputEntry>");
      }
      xml.append("<outputEntry id=\"y_%s\">".formatted(rule.id()));
      xml.append("<text>\"").append(rule.id()).append("\"</text></outputEntry></rule>");
    }
    return xml.append("</decisionTable></decision></definitions>").toString();
  }
}
