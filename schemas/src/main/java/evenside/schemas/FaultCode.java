package evenside.schemas;

/**
 * The codes of faults against a schema, as published in {@code catalogue/fault-codes.json}.
 *
 * <p>Those of one {@link Concern} say the same thing in two ways (a date that is no date also has
 * the wrong form); of these only the first in this order is reported at one place.
 */
enum FaultCode {
  TYPE_WRONG("type.wrong", Concern.TYPE),
  MEMBER_MISSING("member.missing", Concern.PRESENCE),
  MEMBER_UNKNOWN("member.unknown", Concern.PRESENCE),
  SCHEMA_VERSION_UNSUPPORTED("schema-version.unsupported", Concern.CHOICE),
  UNIT_WRONG("unit.wrong", Concern.CHOICE),
  VALUE_NOT_ALLOWED("value.not-allowed", Concern.CHOICE),
  NUMBER_BELOW_MINIMUM("number.below-minimum", Concern.NUMBER),
  NUMBER_ABOVE_MAXIMUM("number.above-maximum", Concern.NUMBER),
  DATE_INVALID("date.invalid", Concern.TEXT),
  DATE_TIME_INVALID("date-time.invalid", Concern.TEXT),
  TEXT_TOO_SHORT("text.too-short", Concern.TEXT),
  TEXT_TOO_LONG("text.too-long", Concern.TEXT),
  TEXT_WRONG_FORM("text.wrong-form", Concern.TEXT),
  NAME_WRONG_FORM("name.wrong-form", Concern.TEXT),
  LIST_TOO_SHORT("list.too-short", Concern.LIST_LENGTH),
  LIST_TOO_LONG("list.too-long", Concern.LIST_LENGTH),
  TRIALS_NONE_VALID("trials.none-valid", Concern.LIST_CONTENT),
  OBJECT_TOO_FEW_MEMBERS("object.too-few-members", Concern.OBJECT_SIZE),
  OBJECT_TOO_MANY_MEMBERS("object.too-many-members", Concern.OBJECT_SIZE);

  /** What a code is about. */
  enum Concern {
    TYPE,
    PRESENCE,
    CHOICE,
    NUMBER,
    TEXT,
    LIST_LENGTH,
    LIST_CONTENT,
    OBJECT_SIZE
  }

  private final String code;
  private final Concern concern;

  FaultCode(String code, Concern concern) {
    this.code = code;
    this.concern = concern;
  }

  String code() {
    return code;
  }

  Concern concern() {
    return concern;
  }
}
