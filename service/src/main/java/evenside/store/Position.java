package evenside.store;

import static java.time.temporal.ChronoUnit.MICROS;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.Comparator;
import java.util.Optional;
import java.util.UUID;

/**
 * A place in a list that is ordered by time and then id, newest first. It stays valid while rows
 * arrive: a page that starts after it neither skips nor repeats a row.
 *
 * @param at time of the row, to the microsecond as the databases keep it
 * @param id id of the row
 */
public record Position(Instant at, UUID id) {
  /** The order of the lists; of ids as the databases see it, without signs. */
  static final Comparator<Position> NEWEST_FIRST =
      Comparator.comparing(Position::at)
          .thenComparing(position -> position.id().getMostSignificantBits(), Long::compareUnsigned)
          .thenComparing(position -> position.id().getLeastSignificantBits(), Long::compareUnsigned)
          .reversed();

  /** Cuts what no database keeps. */
  public Position {
    at = at.truncatedTo(MICROS);
  }

  /**
   * The position as text for a page link.
   *
   * @return the time, a tilde and the id
   */
  public String text() {
    return at + "~" + id;
  }

  /**
   * Reads what {@link #text} wrote.
   *
   * @param text the text
   * @return the position; empty where the text is none
   */
  public static Optional<Position> parse(String text) {
    int mark = text.indexOf('~');
    if (mark < 0) {
      return Optional.empty();
    }
    try {
      Position position =
          new Position(
              Instant.parse(text.substring(0, mark)), UUID.fromString(text.substring(mark + 1)));
      // Lenient forms of a UUID are refused: one position has one text.
      return position.text().equals(text) ? Optional.of(position) : Optional.empty();
    } catch (DateTimeException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
