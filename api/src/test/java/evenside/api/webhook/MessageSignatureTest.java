package evenside.api.webhook;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * RFC 9421, appendix B.2.5, with the shared secret of B.1.5; looked up in several public copies.
 */
class MessageSignatureTest {
  private static final byte[] SECRET =
      Base64.getDecoder()
          .decode(
              "uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==");
  private static final String PARAMETERS = "created=1618884473;keyid=\"test-shared-secret\"";

  private static Map<String, String> covered() {
    Map<String, String> covered = new LinkedHashMap<>();
    covered.put("date", "Tue, 20 Apr 2021 02:07:55 GMT");
    covered.put("@authority", "example.com");
    covered.put("content-type", "application/json");
    return covered;
  }

  @Test
  void base_isThatOfTheStandard() {
    String params = MessageSignature.params(covered(), PARAMETERS);
    assertThat(MessageSignature.base(covered(), params))
        .isEqualTo(
            """
            "date": Tue, 20 Apr 2021 02:07:55 GMT
            "@authority": example.com
            "content-type": application/json
            "@signature-params": ("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret\"""");
  }

  @Test
  void signature_isThatOfTheStandard() {
    MessageSignature signed = MessageSignature.of("sig-b25", covered(), PARAMETERS, SECRET);
    assertThat(signed.input())
        .isEqualTo(
            "sig-b25=(\"date\" \"@authority\" \"content-type\");created=1618884473;keyid=\"test-shared-secret\"");
    assertThat(signed.signature())
        .isEqualTo("sig-b25=:pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=:");
  }

  @Test
  void anyChange_givesAnotherSignature() {
    String signed = MessageSignature.of("s", covered(), PARAMETERS, SECRET).signature();
    for (String name : covered().keySet()) {
      Map<String, String> changed = covered();
      changed.compute(name, (n, value) -> value + "x");
      assertThat(MessageSignature.of("s", changed, PARAMETERS, SECRET).signature())
          .as(name)
          .isNotEqualTo(signed);
    }
    assertThat(MessageSignature.of("s", covered(), PARAMETERS + "0", SECRET).signature())
        .isNotEqualTo(signed);
    assertThat(MessageSignature.of("s", covered(), PARAMETERS, new byte[32]).signature())
        .isNotEqualTo(signed);
  }
}
