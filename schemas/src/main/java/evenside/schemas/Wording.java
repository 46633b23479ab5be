package evenside.schemas;

import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;

/**
 * The words of a fault.
 *
 * @param detail one sentence
 * @param limit the bound or the allowed values; empty where the rule has none
 */
record Wording(String detail, String limit) {

  /**
   * @param rule value of the keyword that failed
   * @param around the schema object the keyword stands in
   */
  static Wording of(FaultCode code, JsonNode rule, JsonNode around) {
    String limit = rule.isValueNode() ? rule.asString() : "";
    return switch (code) {
      case TYPE_WRONG -> new Wording("must be " + article(limit), limit);
      case MEMBER_MISSING -> missing(List.of());
      case MEMBER_UNKNOWN -> unknown(around);
      case SCHEMA_VERSION_UNSUPPORTED -> bounded("must be \"%s\", in quotes", limit);
      case UNIT_WRONG, VALUE_NOT_ALLOWED -> choice(rule);
      case NUMBER_BELOW_MINIMUM -> bounded(least(around), limit);
      case NUMBER_ABOVE_MAXIMUM -> bounded("must be at most %s", limit);
      case TEXT_TOO_SHORT -> bounded("must have %s or more characters", limit);
      case TEXT_TOO_LONG -> bounded("must have %s or fewer characters", limit);
      case TEXT_WRONG_FORM -> new Wording(form(limit), limit);
      case NAME_WRONG_FORM -> name(rule);
      case DATE_INVALID ->
          new Wording("must be a day of the calendar, as in 2026-03-09", "YYYY-MM-DD");
      case DATE_TIME_INVALID ->
          new Wording(
              "must be a date and time that exist, with seconds and the offset from UTC, as in"
                  + " 2026-03-09T14:30:00+01:00",
              "YYYY-MM-DDThh:mm:ss±hh:mm");
      case LIST_TOO_SHORT -> bounded("must have %s or more items", limit);
      case LIST_TOO_LONG -> bounded("must have %s or fewer items", limit);
      case TRIALS_NONE_VALID ->
          new Wording(
              "at least one trial must count, that is, carry no invalidReason; if none does, leave"
                  + " the result out and name the test and side under notPerformed",
              "1");
      case OBJECT_TOO_FEW_MEMBERS -> bounded("must have %s or more members", limit);
      case OBJECT_TOO_MANY_MEMBERS -> bounded("must have %s or fewer members", limit);
    };
  }

  /**
   * A member that is not there.
   *
   * @param inItsPlace the members of which one would do as well
   */
  static Wording missing(List<String> inItsPlace) {
    return new Wording(
        inItsPlace.isEmpty()
            ? "is required and not there"
            : "must be there, or " + String.join(" or ", inItsPlace) + " in its place",
        "");
  }

  /** What the patterns of {@code common.schema.json} ask for, in words. */
  private static String form(String pattern) {
    return Form.of(pattern).map(Form::words).orElse("must match " + pattern);
  }

  private static Wording bounded(String detail, String limit) {
    return new Wording(detail.formatted(limit), limit);
  }

  private static String least(JsonNode around) {
    return around.has("exclusiveMinimum") ? "must be more than %s" : "must be at least %s";
  }

  private static String article(String type) {
    return switch (type) {
      case "object" -> "an object";
      case "array" -> "a list";
      case "string" -> "text";
      case "integer" -> "a whole number";
      case "number" -> "a number";
      case "boolean" -> "true or false";
      default -> throw new IllegalStateException("no words for the type " + type);
    };
  }

  private static Wording choice(JsonNode rule) {
    if (!rule.isArray()) {
      return bounded("must be %s", rule.asString());
    }
    List<String> allowed = new ArrayList<>();
    rule.forEach(value -> allowed.add(value.asString()));
    String limit = String.join(", ", allowed);
    return new Wording(
        allowed.size() == 1 ? "must be " + limit : "must be one of: " + limit, limit);
  }

  private static Wording unknown(JsonNode around) {
    String known = String.join(", ", around.path("properties").propertyNames());
    return new Wording("is not a member of this object", known);
  }

  private static Wording name(JsonNode rule) {
    String pattern = rule.path("pattern").asString();
    String detail = "the name must have %s or fewer characters and match %s";
    return new Wording(detail.formatted(rule.path("maxLength").asString(), pattern), pattern);
  }
}
