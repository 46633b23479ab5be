package evenside.schemas.acceptor;

/**
 * Dates and times in the one form that senders use: RFC 3339 with four-digit years from 0001,
 * {@code T} and {@code Z} in capitals, no leap second. Of any other form these have no opinion.
 */
final class Dates {

  private static final int DATE_LENGTH = 10;
  private static final int SECONDS_LENGTH = 19;
  private static final int OFFSET_LENGTH = 6;
  private static final int MOST_DECIMALS = 9;

  private Dates() {}

  /** {@code 2026-03-14}. */
  static boolean isDate(String text) {
    return text.length() == DATE_LENGTH && startsWithDate(text);
  }

  /** {@code 2026-03-14T09:30:00+01:00}, perhaps with decimals of the second. */
  static boolean isDateTime(String text) {
    if (text.length() <= SECONDS_LENGTH || !startsWithDate(text) || !startsWithTime(text)) {
      return false;
    }
    int zone = SECONDS_LENGTH;
    if (text.charAt(zone) == '.') {
      zone = endOfDigits(text, zone + 1);
      int decimals = zone - SECONDS_LENGTH - 1;
      if (decimals < 1 || decimals > MOST_DECIMALS) {
        return false;
      }
    }
    return isZone(text, zone);
  }

  private static boolean startsWithDate(String text) {
    int year = number(text, 0, 4);
    int month = number(text, 5, 2);
    int day = number(text, 8, 2);
    return text.charAt(4) == '-'
        && text.charAt(7) == '-'
        && year >= 1
        && month >= 1
        && month <= 12
        && day >= 1
        && (day <= 28 || day <= lastDay(year, month));
  }

  private static int lastDay(int year, int month) {
    return switch (month) {
      case 2 -> (year % 4 == 0 && year % 100 != 0) || year % 400 == 0 ? 29 : 28;
      case 4, 6, 9, 11 -> 30;
      default -> 31;
    };
  }

  private static boolean startsWithTime(String text) {
    return text.charAt(10) == 'T'
        && text.charAt(13) == ':'
        && text.charAt(16) == ':'
        && isUpTo(23, text, 11)
        && isUpTo(59, text, 14)
        && isUpTo(59, text, 17);
  }

  private static boolean isZone(String text, int at) {
    int left = text.length() - at;
    if (left == 1) {
      return text.charAt(at) == 'Z';
    }
    return left == OFFSET_LENGTH
        && (text.charAt(at) == '+' || text.charAt(at) == '-')
        && text.charAt(at + 3) == ':'
        && isUpTo(14, text, at + 1)
        && isUpTo(59, text, at + 4);
  }

  private static boolean isUpTo(int most, String text, int at) {
    int number = number(text, at, 2);
    return number >= 0 && number <= most;
  }

  /** The digits there as a number, or -1 if one of them is none. */
  private static int number(String text, int at, int digits) {
    int number = 0;
    for (int i = at; i < at + digits; i++) {
      int digit = text.charAt(i) - '0';
      if (digit < 0 || digit > 9) {
        return -1;
      }
      number = number * 10 + digit;
    }
    return number;
  }

  private static int endOfDigits(String text, int from) {
    int at = from;
    while (at < text.length() && text.charAt(at) >= '0' && text.charAt(at) <= '9') {
      at++;
    }
    return at;
  }
}
