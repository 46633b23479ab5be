package evenside.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import evenside.schemas.Corpus.Sample;
import evenside.schemas.SchemaParts.Assertion;
import evenside.schemas.SchemaParts.Part;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Takes each assertion out of the schemas in turn: some document must then get away with what was
 * refused before. An assertion that nothing defends could be lost in an edit without any test
 * seeing it.
 *
 * <p>A document defends an assertion if it passes without it, or loses the report of exactly that
 * assertion and gains none. Where a choice by {@code if} already repeats what a branch asserts, the
 * branch is checked alone, as the published definition it is. Inside {@code if} and {@code
 * contains} there is no report to lose; there any changed verdict defends.
 */
class SchemaMutationTest {

  private static final SchemaSet WHOLE = new SchemaSet(Publish.schemas(Corpus.FOLDER));

  private enum Defence {
    PASSES,
    LOSES_ITS_REPORT,
    AS_DEFINITION,
    CHANGES_THE_CHOICE,
    NONE
  }

  @Test
  void every_assertion_of_every_input_schema_is_defended() {
    Set<Assertion> seen = new HashSet<>();
    List<Assertion> undefended = new ArrayList<>();
    int[] counts = new int[Defence.values().length];
    for (String kind : Corpus.INPUT_KINDS) {
      Mutants mutants = new Mutants(kind);
      List<Sample> pool = pool(kind);
      for (Assertion assertion : mutants.assertions()) {
        if (seen.add(assertion)) {
          Defence defence = defence(mutants, assertion, pool);
          counts[defence.ordinal()]++;
          if (defence == Defence.NONE) {
            undefended.add(assertion);
          }
        }
      }
    }
    print(seen.size(), counts);
    assertThat(undefended).isEmpty();
    assertThat(seen).hasSizeGreaterThan(500);
  }

  private static void print(int all, int[] counts) {
    System.out.printf("Schema assertions: %d; defended:", all);
    for (Defence defence : Defence.values()) {
      System.out.printf(
          " %s %d",
          defence.name().toLowerCase(Locale.ROOT).replace('_', ' '), counts[defence.ordinal()]);
    }
    System.out.println();
  }

  private static Defence defence(Mutants mutants, Assertion assertion, List<Sample> pool) {
    SchemaSet weaker = new SchemaSet(mutants.without(assertion));
    Part root = mutants.root();
    if (assertion.part().chooses()) {
      return pool.stream().anyMatch(sample -> changes(weaker, root, sample.document()))
          ? Defence.CHANGES_THE_CHOICE
          : Defence.NONE;
    }
    Optional<JsonNode> broken = mutants.breaking(assertion);
    if (broken.isEmpty()) {
      return Defence.NONE;
    }
    if (losesItsReport(weaker, root, assertion, broken.get())) {
      return reports(weaker, root, broken.get()).isEmpty()
          ? Defence.PASSES
          : Defence.LOSES_ITS_REPORT;
    }
    boolean defended =
        mutants
            .definition(assertion.part())
            .filter(part -> losesItsReport(weaker, part, assertion, mutants.at(part, broken.get())))
            .isPresent();
    return defended ? Defence.AS_DEFINITION : Defence.NONE;
  }

  private static boolean changes(SchemaSet weaker, Part root, JsonNode document) {
    return !reports(weaker, root, document).equals(reports(WHOLE, root, document));
  }

  private static boolean losesItsReport(
      SchemaSet weaker, Part root, Assertion assertion, JsonNode document) {
    Set<String> before = reports(WHOLE, root, document);
    Set<String> after = reports(weaker, root, document);
    Set<String> lost = new HashSet<>(before);
    lost.removeAll(after);
    return before.containsAll(after)
        && !lost.isEmpty()
        && lost.stream().allMatch(report -> report.startsWith(origin(assertion)));
  }

  /**
   * Reports about keys carry the location of {@code propertyNames}, not of the keyword below it.
   */
  private static String origin(Assertion assertion) {
    Part part = assertion.part();
    return part.namesKeys() ? part.uri() + " " : part.uri() + "/" + assertion.name() + " ";
  }

  private static Set<String> reports(SchemaSet schemas, Part root, JsonNode document) {
    Set<String> reports = new HashSet<>();
    for (Error error : schemas.errors(uri(root), document)) {
      reports.add(
          error.getSchemaLocation()
              + " "
              + error.getInstanceLocation()
              + " "
              + error.getProperty());
    }
    return reports;
  }

  private static String uri(Part part) {
    return part.pointer().toString().isEmpty() ? part.id() : part.uri();
  }

  private static List<Sample> pool(String kind) {
    return Stream.of(Corpus.valid(), Corpus.invalid(), Mutants.broken(kind))
        .flatMap(List::stream)
        .filter(sample -> sample.kind().equals(kind))
        .toList();
  }
}
