package evenside.merkle;

import static org.assertj.core.api.Assertions.assertThat;

import evenside.schemas.StrictJson;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Known answers; their origin is written in the file. */
class Rfc6962Test {
  private static final JsonNode KNOWN = read();

  private static JsonNode read() {
    try (InputStream in = Rfc6962Test.class.getResourceAsStream("/merkle/rfc6962.json")) {
      return StrictJson.read(Objects.requireNonNull(in).readAllBytes(), StrictJson.Limits.OWN);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static List<Hash> leaves() {
    return KNOWN.path("leaves").valueStream().map(leaf -> leafHash(leaf.asString())).toList();
  }

  private static Hash leafHash(String hex) {
    return Hash.leaf(HexFormat.of().parseHex(hex));
  }

  @Test
  void roots_ofAllSizes() {
    Frontier frontier = Frontier.empty();
    JsonNode roots = KNOWN.path("roots_by_size");
    assertThat(frontier.root().hex()).isEqualTo(roots.path(0).asString());
    for (int i = 0; i < 8; i++) {
      frontier.append(leaves().get(i));
      assertThat(frontier.root().hex()).isEqualTo(roots.path(i + 1).asString());
    }
  }

  @Test
  void subtrees_ofAllLevels() {
    Tree tree = new Tree(leaves());
    JsonNode levels = KNOWN.path("levels");
    for (int level = 0; level < 4; level++) {
      for (int index = 0; index < 8 >> level; index++) {
        assertThat(tree.node(new Subtree(level, index)).hex())
            .isEqualTo(levels.path(level).path(index).asString());
      }
    }
  }

  @Test
  void leafAndNode_ofText() {
    assertThat(Hash.leaf("L123456".getBytes(StandardCharsets.UTF_8)).hex())
        .isEqualTo(KNOWN.path("leaf_L123456").asString());
    // RFC 6962 nodes join 32-byte hashes; the published answer joins two short texts.
    byte[] texts = "N123N456".getBytes(StandardCharsets.UTF_8);
    assertThat(Hash.sha256(new byte[] {1}, texts).hex())
        .isEqualTo(KNOWN.path("node_N123_N456").asString());
  }
}
