package evenside.schemas;

import com.networknt.schema.Error;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * Turns what the schema validator reports into the real faults: one for each thing to put right.
 *
 * <p>Codes follow from the keyword, never from the validator's text, so another release of it
 * cannot change them.
 */
final class FaultReader {

  /** A fault still tied to its kind, so that it can be weighed against its neighbours. */
  private record Found(FaultCode code, Fault fault) {}

  private final Map<String, JsonNode> schemas;

  /**
   * @param schemas every schema by its {@code $id}
   */
  FaultReader(Map<String, JsonNode> schemas) {
    this.schemas = schemas;
  }

  /** All faults, sorted by pointer, then code. */
  List<Fault> read(List<Error> errors) {
    List<Found> found = new ArrayList<>();
    for (Error error : errors) {
      if (!followsFromAnother(error)) {
        found.add(read(error));
      }
    }
    return Faults.inOrder(onePerConcern(found));
  }

  /** An {@code if} only chooses; and where there are no trials at all, that is the fault. */
  private static boolean followsFromAnother(Error error) {
    return switch (error.getKeyword()) {
      case "if" -> true;
      case "contains", "minContains" -> !holdsTrials(error.getInstanceNode());
      default -> false;
    };
  }

  private static boolean holdsTrials(JsonNode list) {
    return list.valueStream().anyMatch(JsonNode::isObject);
  }

  /**
   * Where the type is wrong nothing else is worth saying; else the first code of each concern.
   * Places are told apart as text: a sender can choose names that all have one hash, and only what
   * can be sorted is then still found fast in a set.
   */
  private static List<Fault> onePerConcern(List<Found> found) {
    Set<String> wrongType =
        found.stream()
            .filter(one -> one.code() == FaultCode.TYPE_WRONG)
            .map(one -> one.fault().pointer())
            .collect(Collectors.toSet());
    Set<String> taken = new HashSet<>();
    return found.stream()
        .filter(
            one -> one.code() == FaultCode.TYPE_WRONG || !wrongType.contains(one.fault().pointer()))
        .sorted(Comparator.comparing(Found::code))
        .filter(one -> taken.add(one.fault().pointer() + " " + one.code().concern()))
        .map(Found::fault)
        .toList();
  }

  private Found read(Error error) {
    JsonPointer place = JsonPointer.compile(error.getInstanceLocation().toString());
    if (error.getProperty() != null) {
      place = place.appendProperty(error.getProperty());
    }
    FaultCode code = code(error, place);
    Wording wording =
        code == FaultCode.MEMBER_MISSING
            ? Wording.missing(inItsPlace(error))
            : Wording.of(code, error.getSchemaNode(), around(error));
    Fault fault =
        Fault.at(place, code.code(), wording.detail())
            .withSchema(String.valueOf(error.getSchemaLocation()));
    return new Found(code, wording.limit().isEmpty() ? fault : fault.withLimit(wording.limit()));
  }

  private FaultCode code(Error error, JsonPointer place) {
    return switch (error.getKeyword()) {
      case "type" -> FaultCode.TYPE_WRONG;
      case "required" -> FaultCode.MEMBER_MISSING;
      case "additionalProperties", "false" -> FaultCode.MEMBER_UNKNOWN;
      case "const", "enum" -> choice(place);
      case "minimum", "exclusiveMinimum" -> FaultCode.NUMBER_BELOW_MINIMUM;
      case "maximum" -> FaultCode.NUMBER_ABOVE_MAXIMUM;
      case "minLength" -> FaultCode.TEXT_TOO_SHORT;
      case "maxLength", "pattern", "format" -> text(error);
      case "propertyNames" -> FaultCode.NAME_WRONG_FORM;
      case "minItems" -> FaultCode.LIST_TOO_SHORT;
      case "maxItems" -> FaultCode.LIST_TOO_LONG;
      case "contains", "minContains" -> FaultCode.TRIALS_NONE_VALID;
      case "minProperties" -> FaultCode.OBJECT_TOO_FEW_MEMBERS;
      case "maxProperties" -> FaultCode.OBJECT_TOO_MANY_MEMBERS;
      default ->
          throw new IllegalStateException("no fault code for the keyword " + error.getKeyword());
    };
  }

  private static FaultCode choice(JsonPointer place) {
    return switch (lastOf(place)) {
      case "unit" -> FaultCode.UNIT_WRONG;
      case "schemaVersion" -> FaultCode.SCHEMA_VERSION_UNSUPPORTED;
      default -> FaultCode.VALUE_NOT_ALLOWED;
    };
  }

  private static String lastOf(JsonPointer place) {
    JsonPointer last = place.last();
    return last == null ? "" : String.valueOf(last.getMatchingProperty());
  }

  /**
   * A date that is too long or has the wrong form is an invalid date, whichever rule saw it first.
   */
  private FaultCode text(Error error) {
    return switch (around(error).path("format").asString("")) {
      case "date" -> FaultCode.DATE_INVALID;
      case "date-time" -> FaultCode.DATE_TIME_INVALID;
      default ->
          error.getKeyword().equals("maxLength")
              ? FaultCode.TEXT_TOO_LONG
              : FaultCode.TEXT_WRONG_FORM;
    };
  }

  /**
   * The members of which one would do as well: where the rule is the {@code else} of an {@code if}
   * that does nothing but ask for a member.
   */
  private List<String> inItsPlace(Error error) {
    List<String> members = new ArrayList<>();
    JsonNode schema = schema(error);
    JsonPointer branch = rule(error).head();
    while (lastOf(branch).equals("else")) {
      branch = branch.head();
      JsonNode condition = schema.at(branch).path("if");
      if (condition.size() == 1 && condition.has("required")) {
        condition.path("required").forEach(member -> members.add(0, member.asString()));
      }
    }
    return members;
  }

  /** The schema object the failed keyword stands in. */
  private JsonNode around(Error error) {
    return schema(error).at(rule(error).head());
  }

  private JsonNode schema(Error error) {
    String file = String.valueOf(error.getSchemaLocation()).split("#", 2)[0];
    JsonNode schema = schemas.get(file);
    if (schema == null) {
      throw new IllegalStateException("a rule from outside the contract: " + file);
    }
    return schema;
  }

  /** Where in its schema the failed keyword is. */
  private static JsonPointer rule(Error error) {
    return JsonPointer.compile(String.valueOf(error.getSchemaLocation()).split("#", 2)[1]);
  }
}
