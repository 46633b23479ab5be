package evenside.schemas;

import java.util.Optional;

/**
 * A body that is not JSON as this contract takes it: RFC 8259, strict UTF-8, and within limits.
 *
 * <p>The {@link #code()} is stable and described in {@code catalogue/fault-codes.json}; the message
 * is plain English and may be reworded.
 */
public final class NotJson extends RuntimeException {

  /** Why a body was refused. */
  enum Reason {
    EMPTY("json.empty"),
    TOO_LARGE("json.too-large"),
    BYTE_ORDER_MARK("json.byte-order-mark"),
    NOT_UTF_8("json.not-utf-8"),
    MALFORMED("json.malformed"),
    TRAILING_TEXT("json.trailing-text"),
    DUPLICATE_NAME("json.duplicate-name"),
    LONE_SURROGATE("json.lone-surrogate"),
    TOO_DEEP("json.too-deep"),
    TOO_MANY_TOKENS("json.too-many-tokens"),
    NAME_TOO_LONG("json.name-too-long"),
    TEXT_TOO_LONG("json.text-too-long"),
    NUMBER_TOO_LONG("json.number-too-long"),
    NUMBER_TOO_PRECISE("json.number-too-precise"),
    NUMBER_OUT_OF_RANGE("json.number-out-of-range");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    String code() {
      return code;
    }
  }

  /** A place in the text; both count from 1, the column in UTF-16 units as editors do. */
  public record Location(int line, int column) {}

  private final Reason reason;
  private final Optional<Location> location;

  NotJson(Reason reason, String detail, Optional<Location> location) {
    super(detail);
    this.reason = reason;
    this.location = location;
  }

  /** The stable code, for example {@code json.duplicate-name}. */
  public String code() {
    return reason.code();
  }

  /** What is wrong, one plain sentence that names the limit where there is one. */
  public String detail() {
    return String.valueOf(getMessage());
  }

  /** Where in the text, if that is known. */
  public Optional<Location> location() {
    return location;
  }
}
