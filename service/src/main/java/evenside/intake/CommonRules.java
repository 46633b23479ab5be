package evenside.intake;

import evenside.document.CanonicalJson;
import evenside.limb.Side;
import evenside.quantity.Decimals;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Rules that hold for every kind of document. Like all rules they also run on a document that its
 * schema has refused, so that a sender sees all faults at once: they pass over what is not there or
 * not of its type.
 */
final class CommonRules {
  private static final int EXTENSIONS_BYTES = 16 * 1024;
  static final Duration CLOCK_DIFFERENCE = Duration.ofMinutes(5);

  /** It is nowhere later than here. */
  private static final ZoneOffset EARLIEST_TOMORROW = ZoneOffset.ofHours(14);

  /** Long before the first reconstruction that anybody alive may have had. */
  private static final int FIRST_YEAR = 1900;

  private CommonRules() {}

  /** The latest calendar date that it can be anywhere. */
  static LocalDate latestToday(Instant now) {
    return LocalDate.ofInstant(now, EARLIEST_TOMORROW);
  }

  /** A calendar date, or empty if the member holds none: the schema has said so by then. */
  static Optional<LocalDate> date(JsonNode json, String member) {
    return date(json.path(member));
  }

  /** A calendar date, or empty if the value is none. */
  static Optional<LocalDate> date(JsonNode value) {
    try {
      return value.isString() ? Optional.of(LocalDate.parse(value.asString())) : Optional.empty();
    } catch (DateTimeException none) {
      return Optional.empty();
    }
  }

  /**
   * The operated side is that of the case.
   *
   * @param ofCase that side, or null where the case is not known
   */
  static void side(JsonNode json, @Nullable Side ofCase, RuleFaults faults) {
    String side = json.path("operatedSide").asString("");
    if (ofCase != null && side.equals(ofCase.opposite().code())) {
      faults.add(
          "/operatedSide",
          RuleCode.SIDE_CONTRADICTS_CASE,
          "the case says that the other side was operated on",
          ofCase.code());
    }
  }

  static Optional<OffsetDateTime> instant(
      JsonNode json, String member, Instant now, RuleFaults faults) {
    if (!json.has(member)) {
      return Optional.empty();
    }
    try {
      OffsetDateTime time = OffsetDateTime.parse(json.path(member).asString(""));
      if (time.toInstant().isAfter(now.plus(CLOCK_DIFFERENCE))) {
        faults.add(
            "/" + member,
            RuleCode.TIME_IN_FUTURE,
            "this time is in the future",
            "at most 5 minutes ahead of " + now);
      }
      if (time.getYear() < FIRST_YEAR) {
        faults.add(
            "/" + member,
            RuleCode.VALUE_IMPLAUSIBLE,
            "nobody alive was tested so long ago; please check the year",
            "from " + FIRST_YEAR + "-01-01 on");
      }
      return Optional.of(time);
    } catch (DateTimeException invalid) {
      faults.add("/" + member, RuleCode.TIME_INVALID, "no clock shows this date and time");
      return Optional.empty();
    }
  }

  static void extensions(JsonNode json, RuleFaults faults) {
    JsonNode extensions = json.path("extensions");
    if (extensions.isObject() && CanonicalJson.bytes(extensions).length > EXTENSIONS_BYTES) {
      faults.add(
          "/extensions",
          RuleCode.EXTENSION_TOO_LARGE,
          "the extensions are too large",
          "16 KiB as canonical JSON");
    }
    for (int i = 0; i < json.path("mustUnderstand").size(); i++) {
      faults.add(
          "/mustUnderstand/" + i,
          RuleCode.EXTENSION_NOT_UNDERSTOOD,
          "this service understands no extensions and may not score what it does not understand");
    }
  }

  /**
   * True if a trial does not count. Its number may be anything, as where a sensor failed or a run
   * was broken off, and enters no score; so it is kept as it was seen.
   */
  static boolean invalid(JsonNode trial) {
    return trial.has("invalidReason");
  }

  /** A member name as a step of a JSON Pointer (RFC 6901 section 3). */
  private static String escaped(String name) {
    return name.replace("~", "~0").replace("/", "~1");
  }

  /** No number carries more decimal places than is kept exactly. */
  static void precision(JsonNode json, String pointer, RuleFaults faults) {
    if (!isPrecise(json)) {
      imprecise(json, pointer, faults); // places are only worked out where there is one to name
    }
  }

  private static boolean isPrecise(JsonNode json) {
    if (json.isNumber()) {
      return isPreciseNumber(json);
    }
    for (JsonNode child : json) {
      if (!isPrecise(child)) {
        return false;
      }
    }
    return true;
  }

  private static boolean isPreciseNumber(JsonNode json) {
    if (json.isIntegralNumber()) {
      return true;
    }
    BigDecimal number = json.decimalValue();
    return number.scale() <= Decimals.INPUT_PLACES
        || number.stripTrailingZeros().scale() <= Decimals.INPUT_PLACES;
  }

  private static void imprecise(JsonNode json, String pointer, RuleFaults faults) {
    if (json.isNumber() && !isPreciseNumber(json)) {
      faults.add(
          pointer,
          RuleCode.NUMBER_TOO_PRECISE,
          "too many decimal places",
          Decimals.INPUT_PLACES + " decimal places");
    } else if (json.isArray()) {
      for (int i = 0; i < json.size(); i++) {
        imprecise(json.path(i), pointer + "/" + i, faults);
      }
    } else if (json.isObject()) {
      for (Map.Entry<String, JsonNode> member : json.properties()) {
        imprecise(member.getValue(), pointer + "/" + escaped(member.getKey()), faults);
      }
    }
  }
}
