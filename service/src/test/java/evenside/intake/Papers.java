package evenside.intake;

import evenside.criteria.CriteriaSet;
import evenside.example.Clinic;
import evenside.intake.Intake.Context;
import evenside.limb.Side;
import evenside.measure.MeasureCatalogue;
import evenside.schemas.Fault;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;

/** The intake as the service sets it up, with the published sets and the clock of the clinic. */
final class Papers {
  static final CatalogueReader READER = new CatalogueReader(Clinic.CONTRACT);
  static final MeasureCatalogue CATALOGUE = READER.measures();

  private static final Intake INTAKE =
      new Intake(
          Clinic.CONTRACT,
          READER,
          CATALOGUE,
          new InstrumentReader(CATALOGUE).instruments(Clinic.CONTRACT));
  private static final Map<String, CriteriaSet> SETS =
      Clinic.CONTRACT.criteriaSets().stream()
          .map(set -> new CriteriaSetReader(READER, CATALOGUE).read(set, ""))
          .collect(Collectors.toMap(CriteriaSet::name, Function.identity()));

  private Papers() {}

  static Checked check(String kind, JsonNode document) {
    return INTAKE.check(kind, document, context(null));
  }

  /** A battery sent for a case whose left knee was operated. */
  static Checked checkForCase(JsonNode battery) {
    return INTAKE.check("battery", battery, context(Side.LEFT));
  }

  private static Context context(Side operated) {
    return new Context(Clinic.NOW, operated, name -> Optional.ofNullable(SETS.get(name)));
  }

  /** Places and codes, in the order given. */
  static List<String> brief(List<Fault> faults) {
    return faults.stream().map(fault -> fault.pointer() + " " + fault.code()).toList();
  }
}
