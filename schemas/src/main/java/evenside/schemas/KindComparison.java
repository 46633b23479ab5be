package evenside.schemas;

import evenside.schemas.BundleReader.Spot;
import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import tools.jackson.databind.JsonNode;

/** Compares two versions of one schema, place by place. */
final class KindComparison {
  private static final String VERSION = "/schemaVersion";

  /** Keywords that refuse more the smaller they are. */
  private static final List<String> UPPER =
      List.of("maximum", "maxLength", "maxItems", "maxProperties", "exclusiveMaximum");

  /** Keywords that refuse more the larger they are. */
  private static final List<String> LOWER =
      List.of(
          "minimum", "minLength", "minItems", "minProperties", "exclusiveMinimum", "minContains");

  /** Keywords whose change cannot be weighed: a break, until somebody declares that it is none. */
  private static final List<String> OPAQUE =
      List.of(
          "type",
          "pattern",
          "format",
          "contains",
          "propertyNames",
          "allOf",
          "anyOf",
          "oneOf",
          "not",
          "if",
          "then",
          "else",
          "multipleOf",
          "uniqueItems",
          "maxContains",
          "dependentRequired");

  /** Annotations, in which nothing is asked. */
  private static final Set<String> WORDS =
      Set.of("title", "description", "examples", "$comment", "deprecated", "default");

  private final String kind;
  private final BundleReader before;
  private final BundleReader after;
  private final boolean sent;
  private final List<Difference> found = new ArrayList<>();
  private final Deque<Pair> open = new ArrayDeque<>();

  /** Two subschemas that are being compared. */
  private record Pair(JsonNode one, JsonNode two) {
    @SuppressWarnings("ReferenceEquality") // the same place of a schema, not an equal one
    boolean isSame(Pair other) {
      return one == other.one && two == other.two;
    }
  }

  KindComparison(String kind, JsonNode before, JsonNode after) {
    this.kind = kind;
    this.before = new BundleReader(before);
    this.after = new BundleReader(after);
    this.sent = !before.path("additionalProperties").asBoolean(true);
  }

  List<Difference> differences() {
    compare(before.root(), after.root(), "");
    found.sort(Comparator.comparing(Difference::place).thenComparing(Difference::detail));
    return List.copyOf(found);
  }

  private void compare(Spot rawOld, Spot rawNew, String place) {
    Spot one = before.followed(rawOld);
    Spot two = after.followed(rawNew);
    Pair pair = new Pair(one.schema(), two.schema());
    // A definition that holds itself is not looked into again.
    if (place.equals(VERSION) || open.stream().anyMatch(pair::isSame)) {
      return;
    }
    open.push(pair);
    asked(one, two, place);
    open.pop();
  }

  private void asked(Spot one, Spot two, String place) {
    members(one, two, place);
    codes(one.schema(), two.schema(), place);
    bounds(one.schema(), two.schema(), place);
    for (String keyword : OPAQUE) {
      if (!plain(one.schema().path(keyword)).equals(plain(two.schema().path(keyword)))) {
        add(
            place,
            true,
            keyword
                + " was "
                + text(one.schema(), keyword)
                + ", is "
                + text(two.schema(), keyword));
      }
    }
    if (one.at("items").exists() && two.at("items").exists()) {
      compare(one.at("items"), two.at("items"), place + "/*");
    }
  }

  private void members(Spot one, Spot two, String place) {
    Set<String> names = new TreeSet<>(one.schema().path("properties").propertyNames());
    names.addAll(two.schema().path("properties").propertyNames());
    for (String name : names) {
      Spot was = one.at("properties", name);
      Spot is = two.at("properties", name);
      String at = place + "/" + name.replace("~", "~0").replace("/", "~1");
      if (!is.exists()) {
        add(at, sent || required(one, name), "the member is gone");
      } else if (!was.exists()) {
        boolean needed = required(two, name);
        add(at, sent && needed, needed ? "a needed member is new" : "an optional member is new");
      } else {
        if (required(one, name) != required(two, name)) {
          boolean needed = required(two, name);
          add(
              at,
              sent == needed,
              needed ? "the member is needed now" : "the member may be absent now");
        }
        compare(was, is, at);
      }
    }
    others(one, two, place);
  }

  private void others(Spot one, Spot two, String place) {
    JsonNode was = one.schema().path("additionalProperties");
    JsonNode is = two.schema().path("additionalProperties");
    if (was.isObject() && is.isObject()) {
      compare(one.at("additionalProperties"), two.at("additionalProperties"), place + "/*");
    } else if (was.asBoolean(true) != is.asBoolean(true)) {
      boolean closed = !is.asBoolean(true);
      add(
          place,
          sent == closed,
          closed ? "other members are refused now" : "other members are taken now");
    }
  }

  private void codes(JsonNode one, JsonNode two, String place) {
    Set<String> was = values(one);
    Set<String> is = values(two);
    if (was.equals(is)) {
      return;
    }
    if (was.isEmpty() || is.isEmpty()) {
      add(
          place,
          sent == was.isEmpty(),
          is.isEmpty() ? "any value is taken now" : "only these are taken now: " + is);
      return;
    }
    for (String code : was) {
      if (!is.contains(code)) {
        add(place, sent, "the code " + code + " is gone");
      }
    }
    for (String code : is) {
      if (!was.contains(code)) {
        add(place, false, "the code " + code + " is new");
      }
    }
  }

  private void bounds(JsonNode one, JsonNode two, String place) {
    UPPER.forEach(keyword -> bound(one, two, keyword, place, -1));
    LOWER.forEach(keyword -> bound(one, two, keyword, place, 1));
  }

  /** A bound that moved: in the narrower direction it breaks senders, in the wider one readers. */
  private void bound(JsonNode one, JsonNode two, String keyword, String place, int narrower) {
    JsonNode was = one.path(keyword);
    JsonNode is = two.path(keyword);
    int moved;
    if (was.isMissingNode() && is.isMissingNode()) {
      return;
    } else if (was.isMissingNode() || is.isMissingNode()) {
      moved = was.isMissingNode() ? narrower : -narrower;
    } else {
      BigDecimal now = is.decimalValue();
      moved = now.compareTo(was.decimalValue());
    }
    if (moved != 0) {
      boolean narrowed = moved == narrower;
      add(
          place,
          sent == narrowed,
          keyword + " was " + text(one, keyword) + ", is " + text(two, keyword));
    }
  }

  private void add(String place, boolean breaks, String detail) {
    found.add(new Difference(kind, place, breaks, detail));
  }

  private static boolean required(Spot spot, String name) {
    return spot.schema()
        .path("required")
        .valueStream()
        .anyMatch(one -> one.asString().equals(name));
  }

  private static Set<String> values(JsonNode schema) {
    Set<String> values = new TreeSet<>();
    schema.path("enum").forEach(value -> values.add(value.toString()));
    if (schema.has("const")) {
      values.add(schema.path("const").toString());
    }
    return values;
  }

  private static String text(JsonNode schema, String keyword) {
    return schema.has(keyword) ? plain(schema.path(keyword)) : "absent";
  }

  /** A schema without its words. */
  private static String plain(JsonNode node) {
    if (node.isObject()) {
      StringBuilder text = new StringBuilder("{");
      for (Map.Entry<String, JsonNode> member : node.properties()) {
        if (!WORDS.contains(member.getKey())) {
          text.append(member.getKey()).append(':').append(plain(member.getValue())).append(' ');
        }
      }
      return text.append('}').toString();
    }
    if (node.isArray()) {
      return node.valueStream().map(KindComparison::plain).toList().toString();
    }
    return node.toString();
  }
}
