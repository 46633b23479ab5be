package evenside.progression;

import evenside.training.Entry;
import evenside.training.RedFlags;
import evenside.training.Response;
import evenside.training.Session;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * One training with everything that completes it, or one look at the knee by itself.
 *
 * @param session the entry it begins with
 * @param completing entries that complete it, in order of time
 * @param response what all entries together say of the knee
 */
record Bout(Session session, List<Session> completing, Response response) {
  Bout {
    completing = List.copyOf(completing);
  }

  Bout(Session session, List<Session> completing) {
    this(
        session,
        completing,
        Stream.concat(Stream.of(session), completing.stream())
            .map(Bout::responseOf)
            .reduce(Response.NONE, Response::and));
  }

  LocalDate day() {
    return session.performedOn();
  }

  Optional<Entry.Training> training() {
    return session.training();
  }

  List<Session> entries() {
    List<Session> all = new ArrayList<>();
    all.add(session);
    all.addAll(completing);
    return all;
  }

  List<String> ids() {
    return entries().stream().map(Session::id).toList();
  }

  /** The answers of those entries that pass a filter. */
  RedFlags redFlags(Predicate<Session> filter) {
    return entries().stream()
        .filter(filter)
        .map(Bout::redFlagsOf)
        .reduce(RedFlags.NOT_ASKED, RedFlags::and);
  }

  /** The same without the completing entries that fail a filter. */
  Bout without(Predicate<Session> later) {
    return new Bout(session, completing.stream().filter(later.negate()).toList());
  }

  private static Response responseOf(Session session) {
    if (session.entry() instanceof Entry.Training training) {
      return training.response();
    }
    return session.entry() instanceof Entry.KneeCheck check ? check.response() : Response.NONE;
  }

  private static RedFlags redFlagsOf(Session session) {
    if (session.entry() instanceof Entry.Training training) {
      return training.redFlags();
    }
    return session.entry() instanceof Entry.KneeCheck check ? check.redFlags() : RedFlags.NOT_ASKED;
  }
}
