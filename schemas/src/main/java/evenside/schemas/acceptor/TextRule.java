package evenside.schemas.acceptor;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.StringNode;

/** A rule for a string, be it a value or a name. */
interface TextRule {

  /** Takes every string. */
  TextRule ANY = text -> true;

  /** True only if the string follows the rule; false may also mean that this rule cannot tell. */
  boolean accepts(String text);

  /** The rule that takes what all of these take. */
  static TextRule all(TextRule... rules) {
    return switch (rules.length) {
      case 0 -> ANY;
      case 1 -> rules[0];
      default -> new All(rules);
    };
  }

  /** Every one of several. */
  record All(TextRule... rules) implements TextRule {
    @Override
    public boolean accepts(String text) {
      for (TextRule rule : rules) {
        if (!rule.accepts(text)) {
          return false;
        }
      }
      return true;
    }
  }

  /** Length in characters (code points), not in the units strings are kept in. */
  record Length(int fewest, int most) implements TextRule {
    @Override
    public boolean accepts(String text) {
      int units = text.length();
      if (units <= most && units / 2 >= fewest) {
        return true; // whatever pairs it holds
      }
      int characters = text.codePointCount(0, units);
      return characters >= fewest && characters <= most;
    }
  }

  /** A value that is a string and follows a rule. */
  record OfValue(TextRule rule) implements Check {
    @Override
    public boolean accepts(JsonNode value) {
      return value instanceof StringNode && rule.accepts(value.stringValue());
    }
  }
}
