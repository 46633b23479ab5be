package evenside.schemas.acceptor;

import tools.jackson.databind.JsonNode;

/** One rule or several, compiled. Shared by all threads. */
interface Check {

  /** Takes whatever there is. */
  Check ANYTHING = value -> true;

  /** Takes nothing: the schema {@code false}. */
  Check NOTHING = value -> false;

  /** True only if the value follows the rule; false may also mean that this check cannot tell. */
  boolean accepts(JsonNode value);

  /** The check that takes what all of these take. */
  static Check all(Check... checks) {
    return checks.length == 1 ? checks[0] : new All(checks);
  }

  /** Every one of several. */
  record All(Check... checks) implements Check {
    @Override
    public boolean accepts(JsonNode value) {
      for (Check check : checks) {
        if (!check.accepts(value)) {
          return false;
        }
      }
      return true;
    }
  }

  /**
   * {@code if}, {@code then} and {@code else}.
   *
   * @param condition must be able to tell of every value: its no chooses a branch
   */
  record Choice(Check condition, Check then, Check otherwise) implements Check {
    @Override
    public boolean accepts(JsonNode value) {
      return condition.accepts(value) ? then.accepts(value) : otherwise.accepts(value);
    }
  }

  /** A schema that is referred to; filled once it is compiled, as schemas may hold themselves. */
  final class Reference implements Check {
    private Check target = NOTHING;

    void to(Check compiled) {
      target = compiled;
    }

    @Override
    public boolean accepts(JsonNode value) {
      return target.accepts(value);
    }
  }
}
