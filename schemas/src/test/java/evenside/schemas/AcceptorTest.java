package evenside.schemas;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.acceptor.Acceptor;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * The quick yes against the schema validator (com.networknt, an outside implementation of JSON
 * Schema 2020-12). {@link EveryVerdict} does the same for millions of documents.
 */
class AcceptorTest {

  private static final Verdicts VERDICTS = new Verdicts();

  @Test
  void every_published_schema_compiles() {
    for (String id : Publish.schemas(Corpus.FOLDER).keySet()) {
      assertThat(VERDICTS.acceptor().whyNot(id)).as(id).isEmpty();
    }
  }

  @Test
  void verdict_is_the_validator_s_on_every_example_and_every_broken_assertion() {
    assertThat(Verdicts.validSeeds()).hasSizeGreaterThan(80).allMatch(VERDICTS::agree);
    assertThat(Verdicts.invalidSeeds()).hasSizeGreaterThan(500).allMatch(VERDICTS::agree);
  }

  /** Arbitrary seeds; the verdicts are those of the outside validator. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2})
  void verdict_is_the_validator_s_on_changed_documents(long seed) {
    long validBefore = VERDICTS.valid();
    assertThat(VERDICTS.differing(seed, 1_500)).isEmpty();
    assertThat(VERDICTS.valid() - validBefore).isBetween(150L, 1_350L);
  }

  @Test
  void unknown_keyword_leaves_the_whole_schema_to_the_validator() {
    for (String rule :
        new String[] {
          "'minItems':1,'type':'array','uniqueItems':true",
          "'type':'string','pattern':'a'",
          "'type':'string','pattern':'^a*?$'",
          "'type':'string','pattern':'^[^a]$'",
          "'type':'string','pattern':'^\\\\d$'",
          "'type':'string','format':'uri'",
          "'type':['string','null']",
          "'const':5",
          "'enum':['a',1]",
          "'if':{'minimum':5},'then':false",
          "'if':{'properties':{'a':{'type':'string'}}},'then':false",
          "'minimum':5",
          "'type':'object','properties':{'a':{'$id':'b'}}",
          "'$ref':'nowhere.json'",
          "'type':'object','required':['a'],'additionalProperties':false"
        }) {
      String id = "https://evenside.example/x";
      JsonNode schema =
          StrictJson.read(
              ("{'$id':'" + id + "'," + rule + "}").replace('\'', '"').getBytes(UTF_8),
              StrictJson.Limits.OWN);
      Acceptor acceptor = new Acceptor(Map.of(id, schema));
      assertThat(acceptor.whyNot(id)).as(rule).isPresent();
      assertThat(acceptor.accepts(id, schema.path("nothing"))).isFalse();
    }
  }
}
