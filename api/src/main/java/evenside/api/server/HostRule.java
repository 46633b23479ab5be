package evenside.api.server;

import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Which {@code Host} and {@code Origin} a request may bear.
 *
 * @param names host names that are answered, in lower case; none means all
 * @param ownOriginOnly whether pages of other origins are refused
 */
public record HostRule(Set<String> names, boolean ownOriginOnly) {
  /**
   * Without credentials only this machine, by its own names, is answered, and no page of another
   * site: else any web page could call in the name of whoever opens it.
   */
  public static final HostRule LOOPBACK = new HostRule(Loopback.NAMES, true);

  /** Keeps its own copy. */
  public HostRule {
    names = Set.copyOf(names);
  }

  /**
   * With credentials. A page of another site has none to send, so its origin does not matter.
   *
   * @param names names by which the service is called; none means any
   */
  public static HostRule withCredentials(Collection<String> names) {
    Set<String> lower =
        names.stream().map(name -> name.toLowerCase(Locale.ROOT)).collect(Collectors.toSet());
    if (!lower.isEmpty()) {
      lower.addAll(Loopback.NAMES);
    }
    return new HostRule(lower, false);
  }

  /** Why a request with these headers is refused; empty if it is not. */
  Optional<Problem> refusal(List<String> hosts, List<String> origins) {
    if (hosts.size() != 1 || !answers(hosts.get(0))) {
      return Optional.of(
          Problem.of(
              ProblemType.FOREIGN_HOST,
              "The Host header names no host that this service answers to."));
    }
    boolean own = origins.isEmpty() || origins.equals(List.of("http://" + hosts.get(0)));
    if (ownOriginOnly && !own) {
      return Optional.of(
          Problem.of(ProblemType.FOREIGN_ORIGIN, "The Origin header names another origin."));
    }
    return Optional.empty();
  }

  private boolean answers(String host) {
    String name = host.replaceFirst(":[0-9]{1,5}$", "").toLowerCase(Locale.ROOT);
    return names.isEmpty() || names.contains(name);
  }
}
