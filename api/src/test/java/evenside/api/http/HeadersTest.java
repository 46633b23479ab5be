package evenside.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import evenside.api.problem.ProblemException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Header and query syntax. Standards are named at each check; their examples are from memory. */
class HeadersTest {
  /** RFC 9530, appendix B: the body {@code {"hello": "world"}} followed by a line feed. */
  @Test
  void digest_ofTheStandardsExample_isTheStandards() {
    byte[] body = "{\"hello\": \"world\"}\n".getBytes(StandardCharsets.UTF_8);
    String field = "sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:";
    assertThat(Digests.field(Digests.sha256(body))).isEqualTo(field);
    assertThatCode(() -> Digests.verify(List.of(field), body)).doesNotThrowAnyException();
    assertThatThrownBy(() -> Digests.verify(List.of(field), new byte[0]))
        .isInstanceOf(ProblemException.class);
  }

  /** RFC 9110, section 13.1.2: weak comparison, {@code *}, lists. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      value = {
        "\"xyzzy\"                            | \"xyzzy\" | true",
        "W/\"xyzzy\"                          | \"xyzzy\" | true",
        "\"xyzzy\", \"r2d2xxxx\", \"c3piozzzz\" | \"r2d2xxxx\" | true",
        "W/\"xyzzy\", W/\"r2d2xxxx\"            | \"r2d2xxxx\" | true",
        "*                                    | \"xyzzy\" | true",
        "\"other\"                            | \"xyzzy\" | false",
        "\"xyzzy\"                            | \"xyzz\"  | false",
        "xyzzy                                | \"xyzzy\" | false",
        "\"a,b\"                              | \"a,b\"   | true"
      })
  void noneMatch_comparesWeakly(String condition, String tag, boolean known) {
    assertThat(EntityTags.noneMatchFails(List.of(condition), tag)).isEqualTo(known);
  }

  @Test
  void match_takesStrongTagsOfOursOnly() {
    String tag = EntityTags.of(new byte[32]);
    assertThat(tag).isEqualTo('"' + "A".repeat(43) + '"');
    assertThat(EntityTags.hashes(List.of(tag))).containsExactly("0".repeat(64));
    assertThat(EntityTags.hashes(List.of("\"x\", " + tag))).containsExactly("0".repeat(64));
    assertThat(EntityTags.hashes(List.of("\"x\"", tag))).containsExactly("0".repeat(64));
    assertThat(EntityTags.hashes(List.of("W/" + tag, "\"x\"", "nonsense"))).isEmpty();
  }

  /** RFC 8941, section 3.3.3: strings of Structured Fields. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      value = {
        "\"8e03978e-40d5-43e8-bc93-6894a57f9324\" | 8e03978e-40d5-43e8-bc93-6894a57f9324",
        "8e03978e-40d5-43e8-bc93-6894a57f9324     | 8e03978e-40d5-43e8-bc93-6894a57f9324",
        "\"a b\"         | a b",
        "\"a\\\"b\\\\c\" | a\"b\\c",
        "\"a,b;c\"       | a,b;c"
      })
  void idempotencyKey_isReadQuotedOrBare(String header, String key) {
    assertThat(IdempotencyKeys.read(List.of(header))).isEqualTo(key);
  }

  @Test
  void idempotencyKey_mayHave128Characters() {
    assertThat(IdempotencyKeys.read(List.of("a".repeat(128)))).hasSize(128);
    assertThatThrownBy(() -> IdempotencyKeys.read(List.of("a".repeat(129))))
        .isInstanceOf(ProblemException.class);
    assertThatThrownBy(() -> IdempotencyKeys.read(List.of("a", "b")))
        .isInstanceOf(ProblemException.class);
  }

  /** RFC 9110, section 12.5.1: the most specific range counts, then the quality. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "                                        | application/json",
        "*/*                                     | application/json",
        "text/html                               | text/html",
        "text/*, application/json;q=0.9          | text/html",
        "text/*;q=0.9, application/json          | application/json",
        "text/*;q=0.3, text/html;q=0.7, */*;q=0.5 | text/html",
        "text/html;q=0, */*                      | application/json"
      })
  void accept_choosesTheBest(String accept, String chosen) {
    List<String> header = accept == null ? List.of() : List.of(accept);
    assertThat(MediaTypes.negotiate(header, List.of("application/json", "text/html")))
        .isEqualTo(chosen);
  }

  @Test
  void query_isDecodedOnce() {
    Set<String> known = Set.of("a", "b");
    assertThat(Query.read("a=1&b=%C3%A9+%2B%2525", known))
        .isEqualTo(Map.of("a", "1", "b", "é +%25"));
    assertThat(Query.read("", known)).isEmpty();
    assertThat(Query.read("a", known)).isEqualTo(Map.of("a", ""));
    assertThat(Query.read("a=b=c", known)).isEqualTo(Map.of("a", "b=c"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"a=%", "a=%4", "a=%zz", "a=%FF", "a=%C3", "a=1&a=1", "%61=1&a=1", "c=1", "=1"})
  void query_thatCanBeReadInTwoWays_isRefused(String query) {
    assertThatThrownBy(() -> Query.read(query, Set.of("a", "b")))
        .isInstanceOf(ProblemException.class);
  }
}
