package evenside.schemas;

import evenside.schemas.Corpus.Sample;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.DecimalNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Documents changed by chance: members taken away, renamed, added and swapped, numbers moved over
 * the bounds of the schemas, texts lengthened, cut and altered by a character. Half of them start
 * from a valid document and are changed gently, so that many stay valid and both verdicts are
 * tried.
 */
final class Wreckage {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** Signs at the edges of the character classes, and some that take more than one unit or byte. */
  private static final List<String> CHARACTERS =
      List.of(
          "a",
          "z",
          "A",
          "Z",
          "0",
          "9",
          "-",
          ".",
          ":",
          "/",
          "@",
          "T",
          "t",
          "+",
          " ",
          "\n",
          "~",
          "!",
          "_",
          "\u00e9",
          "\u0661",
          "\ud83e\uddb5",
          "\u0000");

  private static final List<String> DATES =
      List.of(
          "2026-02-28",
          "2026-02-29",
          "2024-02-29",
          "1900-02-29",
          "2000-02-29",
          "2026-04-31",
          "2026-00-10",
          "2026-13-01",
          "0000-01-01",
          "0001-01-01",
          "9999-12-31",
          "2026-1-01",
          "2026-03-14T09:30:00Z",
          "2026-03-14T24:00:00Z",
          "2026-03-14T23:59:60Z",
          "2026-03-14T09:30:00+14:59",
          "2026-03-14T09:30:00-14:59",
          "2026-03-14T09:30:00+15:00",
          "2026-03-14T09:30:00.123456789Z",
          "2026-03-14T09:30:00.1234567890Z",
          "2026-03-14T09:30:00.Z",
          "2026-03-14T09:30Z",
          "2026-03-14t09:30:00z",
          "2026-02-29T09:30:00Z",
          "0000-03-14T09:30:00Z",
          "2026-03-14T09:60:00Z",
          "2026-03-14T09:30:00-00:00",
          "2026-03-14T09:30:00",
          "2026-03-14 09:30:00Z");

  private final List<BigDecimal> numbers;
  private final List<String> words;
  private final Map<String, List<JsonNode>> byName = new LinkedHashMap<>();
  private final List<Sample> valid;
  private final List<Sample> all;

  /**
   * @param schemas their constants, choices and bounds are the values put in
   * @param valid documents to change gently
   * @param invalid further documents to change
   */
  Wreckage(Iterable<JsonNode> schemas, List<Sample> valid, List<Sample> invalid) {
    TreeSet<BigDecimal> bounds = new TreeSet<>();
    TreeSet<String> texts = new TreeSet<>();
    schemas.forEach(schema -> collect(schema, bounds, texts));
    this.valid = valid;
    all = Stream.concat(valid.stream(), invalid.stream()).toList();
    all.forEach(seed -> remember(seed.document()));
    numbers = List.copyOf(bounds);
    words = List.copyOf(texts);
  }

  /** A document with one to four changes. */
  Sample next(RandomGenerator random) {
    boolean gently = random.nextBoolean();
    Sample seed = pick(gently ? valid : all, random);
    JsonNode document = seed.document().deepCopy();
    int changes = 1 + (random.nextInt(3) == 0 ? random.nextInt(4) : 0);
    for (int i = 0; i < changes; i++) {
      List<JsonNode> holders = new ArrayList<>();
      holders(document, holders);
      if (holders.isEmpty()) {
        break;
      }
      JsonNode holder = pick(holders, random);
      if (gently) {
        touch(holder, random);
      } else {
        change(holder, random);
      }
    }
    return new Sample(seed.kind(), seed.name(), document);
  }

  /** What often leaves a document valid. */
  private void touch(JsonNode holder, RandomGenerator random) {
    if (holder instanceof ObjectNode object && !object.isEmpty()) {
      String name = pick(List.copyOf(object.propertyNames()), random);
      JsonNode value = object.get(name);
      if (value.isNumber()) {
        object.set(name, asWritten(value.decimalValue().add(step(random)), random));
      } else if (random.nextInt(4) == 0) {
        object.remove(name);
      } else {
        object.set(name, pick(byName.get(name), random).deepCopy());
      }
    } else if (holder instanceof ArrayNode list && !list.isEmpty()) {
      JsonNode item = pick(list.valueStream().toList(), random).deepCopy();
      list.set(random.nextInt(list.size()), item);
      list.insert(random.nextInt(list.size()), item.deepCopy());
    }
  }

  private void change(JsonNode holder, RandomGenerator random) {
    if (holder instanceof ObjectNode object) {
      change(object, random);
    } else if (holder instanceof ArrayNode list) {
      change(list, random);
    }
  }

  private void change(ObjectNode object, RandomGenerator random) {
    List<String> names = List.copyOf(object.propertyNames());
    int kind = names.isEmpty() ? 0 : random.nextInt(12);
    switch (kind) {
      case 0 -> object.set(pick(List.copyOf(byName.keySet()), random), any(random));
      case 1 -> object.put("surplus" + random.nextInt(3), true);
      case 2 -> object.remove(pick(names, random));
      case 3 -> object.set(pick(names, random), any(random));
      case 4 -> {
        String name = pick(names, random);
        object.set(altered(name, random), object.remove(name));
      }
      case 5 -> {
        String name = pick(List.copyOf(byName.keySet()), random);
        object.set(name, pick(byName.get(name), random).deepCopy());
      }
      default -> {
        String name = pick(names, random);
        object.set(name, like(name, object.get(name), random));
      }
    }
  }

  private void change(ArrayNode list, RandomGenerator random) {
    int kind = list.isEmpty() ? 0 : random.nextInt(8);
    switch (kind) {
      case 0 -> list.add(any(random));
      case 1 -> list.removeAll();
      case 2 -> list.remove(random.nextInt(list.size()));
      case 3 -> fill(list, random.nextInt(70));
      case 4 -> list.add(pick(list.valueStream().toList(), random).deepCopy());
      default -> {
        int at = random.nextInt(list.size());
        list.set(at, like("", list.get(at), random));
      }
    }
  }

  private static void fill(ArrayNode list, int size) {
    JsonNode item = list.get(0);
    while (list.size() < size) {
      list.add(item.deepCopy());
    }
  }

  /** A value of the same type, or one that stands under the same name elsewhere. */
  private JsonNode like(String name, JsonNode value, RandomGenerator random) {
    if (random.nextInt(4) == 0 && byName.containsKey(name)) {
      return pick(byName.get(name), random).deepCopy();
    }
    return switch (value.getNodeType()) {
      case NUMBER -> number(value.decimalValue(), random);
      case STRING -> NODES.stringNode(text(value.stringValue(), random));
      case BOOLEAN -> NODES.booleanNode(!value.booleanValue());
      default -> any(random);
    };
  }

  private JsonNode any(RandomGenerator random) {
    return switch (random.nextInt(8)) {
      case 0 -> NODES.nullNode();
      case 1 -> NODES.booleanNode(random.nextBoolean());
      case 2 -> NODES.objectNode();
      case 3 -> NODES.arrayNode();
      case 4 -> number(BigDecimal.ZERO, random);
      case 5 -> NODES.stringNode(text("", random));
      default -> pick(byName.get(pick(List.copyOf(byName.keySet()), random)), random).deepCopy();
    };
  }

  private JsonNode number(BigDecimal now, RandomGenerator random) {
    BigDecimal from = random.nextBoolean() ? now : pick(numbers, random);
    return asWritten(from.add(step(random)), random);
  }

  private static BigDecimal step(RandomGenerator random) {
    return switch (random.nextInt(5)) {
      case 0 -> BigDecimal.ZERO;
      case 1 -> BigDecimal.ONE;
      case 2 -> BigDecimal.ONE.negate();
      case 3 -> new BigDecimal("0.000001");
      default -> new BigDecimal("-0.5");
    };
  }

  /** As one of the nodes the reader makes: 5, 5.0, 5e0, 50e-1 are one number. */
  private static JsonNode asWritten(BigDecimal value, RandomGenerator random) {
    boolean whole = value.signum() == 0 || value.stripTrailingZeros().scale() <= 0;
    if (whole && random.nextInt(3) > 0) {
      BigInteger integer = value.toBigInteger();
      if (integer.bitLength() < Integer.SIZE) {
        return NODES.numberNode(integer.intValue());
      }
      return integer.bitLength() < Long.SIZE
          ? NODES.numberNode(integer.longValue())
          : NODES.numberNode(integer);
    }
    return switch (random.nextInt(3)) {
      case 0 -> DecimalNode.valueOf(value.setScale(value.scale() + 1));
      case 1 -> DecimalNode.valueOf(value.stripTrailingZeros());
      default -> DecimalNode.valueOf(value);
    };
  }

  private String text(String now, RandomGenerator random) {
    return switch (random.nextInt(8)) {
      case 0 -> pick(words, random);
      case 1 -> pick(DATES, random);
      case 2 -> "";
      case 3 -> now.repeat(random.nextInt(40));
      case 4 -> pick(CHARACTERS, random).repeat(random.nextInt(300));
      case 5 -> now.substring(0, now.length() - Math.min(1, now.length()));
      default -> altered(now, random);
    };
  }

  private static String altered(String now, RandomGenerator random) {
    int from = random.nextInt(now.length() + 1);
    int to = Math.min(now.length(), from + random.nextInt(2));
    return now.substring(0, from) + pick(CHARACTERS, random) + now.substring(to);
  }

  private static void holders(JsonNode node, List<JsonNode> found) {
    if (node.isContainer()) {
      found.add(node);
      node.forEach(child -> holders(child, found));
    }
  }

  private void remember(JsonNode node) {
    for (Map.Entry<String, JsonNode> member : node.properties()) {
      List<JsonNode> values = byName.computeIfAbsent(member.getKey(), any -> new ArrayList<>());
      if (values.size() < 50) {
        values.add(member.getValue());
      }
    }
    node.forEach(this::remember);
  }

  private static void collect(JsonNode schema, TreeSet<BigDecimal> numbers, TreeSet<String> words) {
    schema.forEach(child -> collect(child, numbers, words));
    if (schema.isNumber()) {
      numbers.add(schema.decimalValue());
    } else if (schema.isString() && schema.stringValue().length() < 40) {
      words.add(schema.stringValue());
    }
  }

  private static <T> T pick(List<T> from, RandomGenerator random) {
    return from.get(random.nextInt(from.size()));
  }
}
