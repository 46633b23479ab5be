package evenside.api.fhir;

import evenside.schemas.Contract;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Every code that may be written, from the catalogues and {@code catalogue/fhir-codes.json}.
 *
 * <p>Local codes always come first. A LOINC code follows where one says the same; a SNOMED CT code
 * only where the operator says that a licence is held.
 */
public final class Codes {
  private static final String LOCAL = Fhir.BASE + "CodeSystem/evenside-";

  /** A local code system. */
  enum Local {
    MEASURES("measures", "What is measured, and what follows from it"),
    INSTRUMENTS("instruments", "Questionnaires"),
    EXERCISES("exercises", "Exercises and drills"),
    CAUTIONS("cautions", "What a reader of a decision must keep in mind"),
    MILESTONES("milestones", "Milestones on the way back to sport"),
    TERMS("terms", "How a test was done, what was seen, and the words of the training record");

    private final String name;
    private final String title;

    Local(String name, String title) {
      this.name = name;
      this.title = title;
    }

    String id() {
      return "evenside-" + name;
    }

    String uri() {
      return LOCAL + name;
    }

    String title() {
      return title;
    }
  }

  private final Map<Local, Map<String, String>> displays = new LinkedHashMap<>();
  private final Map<String, String> termCodes = new HashMap<>();
  private final Map<String, ObjectNode> external = new HashMap<>();
  private final Map<String, ObjectNode> mapped = new HashMap<>();
  private final Map<String, String> read = new HashMap<>();
  private final Map<String, JsonNode> measures = new HashMap<>();
  private final Map<String, String> instruments = new HashMap<>();
  private final String schemaVersion;

  /**
   * The codes of a published contract.
   *
   * @param snomed true to write SNOMED CT codes too, for which the operator holds a licence
   */
  public Codes(Contract contract, boolean snomed) {
    schemaVersion = contract.schemaVersion();
    for (Local system : Local.values()) {
      displays.put(system, new LinkedHashMap<>());
    }
    contract.catalogue("measures").path("measures").forEach(this::addMeasure);
    for (JsonNode one : contract.instruments()) {
      add(Local.INSTRUMENTS, text(one, "code"), text(one, "title"));
      one.path("scores")
          .forEach(score -> instruments.put(text(score, "measure"), text(one, "code")));
    }
    contract
        .catalogue("exercises")
        .path("exercises")
        .forEach(one -> add(Local.EXERCISES, text(one, "code"), text(one, "title")));
    contract
        .catalogue("milestones")
        .path("milestones")
        .forEach(one -> add(Local.MILESTONES, text(one, "code"), text(one, "title")));
    contract
        .catalogue("cautions")
        .path("cautions")
        .forEach(one -> add(Local.CAUTIONS, text(one, "code"), inWords(text(one, "code"))));
    addMapping(contract.catalogue("fhir-codes"), snomed);
  }

  private void addMeasure(JsonNode measure) {
    String code = text(measure, "code");
    String title = text(measure, "title");
    measures.put(code, measure);
    add(Local.MEASURES, code, title);
    if (!text(measure, "symmetry").equals("none")) {
      String word =
          text(measure, "symmetry").equals("ratio") ? "Limb symmetry index" : "Legs compared";
      add(Local.MEASURES, symmetryCode(code), word + ": " + title);
    }
    for (String per : List.of("mass", "height", "limb-length")) {
      add(Local.MEASURES, code + "-per-" + per, title + ", per " + per.replace('-', ' '));
    }
  }

  private void addMapping(JsonNode file, boolean snomed) {
    for (JsonNode term : file.path("terms")) {
      add(Local.TERMS, text(term, "code"), text(term, "display"));
      String ours = text(term, "group") + "." + text(term, "value");
      termCodes.put(ours, text(term, "code"));
      read.put(Local.TERMS.uri() + "|" + text(term, "code"), ours);
    }
    for (JsonNode one : file.path("external")) {
      external.put(text(one, "use"), coding(one));
    }
    for (JsonNode one : file.path("mappings")) {
      String ours = text(one, "kind") + "." + text(one, "ours");
      // Read whoever sends it; written only where its licence allows.
      read.put(text(one, "system") + "|" + text(one, "code"), ours);
      if (snomed || !text(one, "licence").equals("snomed")) {
        mapped.put(ours, coding(one));
      }
    }
  }

  private void add(Local system, String code, String display) {
    of(system).put(code, display);
  }

  /** A measure, with the code of others that says the same. */
  ObjectNode measure(String code) {
    return withMapped(local(Local.MEASURES, code), "measure." + code);
  }

  /** The comparison of both legs on a measure. */
  ObjectNode symmetry(String measure) {
    return Fhir.concept(local(Local.MEASURES, symmetryCode(measure)));
  }

  /** A number of a measure: itself, or by body mass, height or limb length. */
  ObjectNode aspect(String measure, String aspect) {
    int per = aspect.indexOf("-per-");
    return per < 0
        ? measure(measure)
        : Fhir.concept(local(Local.MEASURES, measure + aspect.substring(per)));
  }

  /** A questionnaire. */
  ObjectNode instrument(String code) {
    return withMapped(local(Local.INSTRUMENTS, code), "instrument." + code);
  }

  ObjectNode exercise(String code) {
    return Fhir.concept(local(Local.EXERCISES, code));
  }

  ObjectNode milestone(String code) {
    return Fhir.concept(local(Local.MILESTONES, code));
  }

  ObjectNode caution(String code) {
    return Fhir.concept(local(Local.CAUTIONS, code));
  }

  /** The knee of a side. */
  ObjectNode knee(String side) {
    return withMapped(local(Local.TERMS, termCode("side", side)), "side." + side);
  }

  /** Body mass or height, which have codes of their own everywhere. */
  ObjectNode vitalSign(String member) {
    return Fhir.concept(of(mapped, "vital-sign." + member));
  }

  /** A value of ours as a concept. */
  ObjectNode term(String group, String value) {
    return Fhir.concept(termCoding(group, value));
  }

  ObjectNode termCoding(String group, String value) {
    return local(Local.TERMS, termCode(group, value));
  }

  /** True if a value of ours has a code; the sender's own words have none. */
  boolean hasTerm(String group, String value) {
    return termCodes.containsKey(group + "." + value);
  }

  /** A code of HL7's own systems, by what it is used for. */
  ObjectNode external(String use) {
    return Fhir.concept(externalCoding(use));
  }

  ObjectNode externalCoding(String use) {
    return of(external, use);
  }

  /**
   * What a coding of a sender stands for: {@code measure.knee-pain}, {@code instrument.koos},
   * {@code vital-sign.height}, or group and value of one of our terms, such as {@code side.left};
   * empty if it is not known.
   */
  Optional<String> meaning(String system, String code) {
    if (system.equals(Local.MEASURES.uri()) && measures.containsKey(code)) {
      return Optional.of("measure." + code);
    }
    boolean instrument = of(Local.INSTRUMENTS).containsKey(code);
    if (system.equals(Local.INSTRUMENTS.uri()) && instrument) {
      return Optional.of("instrument." + code);
    }
    return Optional.ofNullable(read.get(system + "|" + code));
  }

  /** True for a code of ours that names something the service works out by itself. */
  boolean isWorkedOutHere(String system, String code) {
    return system.equals(Local.MEASURES.uri())
        && of(Local.MEASURES).containsKey(code)
        && (!measures.containsKey(code) || text(entry(code), "family").equals("derived"));
  }

  /** The entry of a measure in the catalogue. */
  JsonNode entry(String code) {
    return measures.getOrDefault(code, Fhir.object());
  }

  /** The questionnaire that a score belongs to. */
  String instrumentOf(String measure) {
    return instruments.getOrDefault(measure, "");
  }

  /** Every local system as a resource. */
  public List<ObjectNode> systems() {
    List<ObjectNode> all = new ArrayList<>();
    for (Local system : Local.values()) {
      all.add(system(system));
    }
    return all;
  }

  private ObjectNode system(Local system) {
    ObjectNode json = Fhir.resource("CodeSystem", system.id()).put("url", system.uri());
    json.put("version", schemaVersion).put("name", machineName(system.id()));
    json.put("title", system.title()).put("status", "active").put("experimental", false);
    json.put("caseSensitive", true).put("content", "complete");
    var concepts = json.putArray("concept");
    of(system)
        .forEach((code, display) -> concepts.addObject().put("code", code).put("display", display));
    return json;
  }

  /** Letters and digits, as FHIR wants the names of what can be computed with. */
  static String machineName(String id) {
    StringBuilder name = new StringBuilder();
    for (String word : id.split("[^A-Za-z0-9]+", -1)) {
      if (!word.isEmpty()) {
        name.append(Character.toUpperCase(word.charAt(0))).append(word.substring(1));
      }
    }
    return Character.isDigit(name.charAt(0)) ? "Set" + name : name.toString();
  }

  private Map<String, String> of(Local system) {
    return Objects.requireNonNull(displays.get(system));
  }

  private ObjectNode local(Local system, String code) {
    String display = of(system).get(code);
    if (display == null) {
      throw new IllegalArgumentException("no code " + code + " in " + system.uri());
    }
    return Fhir.object().put("system", system.uri()).put("code", code).put("display", display);
  }

  private ObjectNode withMapped(ObjectNode local, String ours) {
    List<ObjectNode> codings = new ArrayList<>(List.of(local));
    Optional.ofNullable(mapped.get(ours)).map(ObjectNode::deepCopy).ifPresent(codings::add);
    return Fhir.concept(codings);
  }

  private String termCode(String group, String value) {
    String code = termCodes.get(group + "." + value);
    if (code == null) {
      throw new IllegalArgumentException("no code for the value " + value + " of " + group);
    }
    return code;
  }

  private static ObjectNode of(Map<String, ObjectNode> codings, String name) {
    ObjectNode coding = codings.get(name);
    if (coding == null) {
      throw new IllegalArgumentException("no code for " + name);
    }
    return coding.deepCopy();
  }

  private static ObjectNode coding(JsonNode entry) {
    return Fhir.object()
        .put("system", text(entry, "system"))
        .put("code", text(entry, "code"))
        .put("display", text(entry, "display"));
  }

  private static String symmetryCode(String measure) {
    return "symmetry-" + measure;
  }

  private static String inWords(String code) {
    String words = code.replace('-', ' ');
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  private static String text(JsonNode node, String name) {
    return node.path(name).asString("");
  }
}
