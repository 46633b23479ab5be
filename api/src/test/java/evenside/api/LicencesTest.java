package evenside.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Objects;
import java.util.jar.JarFile;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The runnable jar has one licence file, ours, and that of Apache's kind is ours too. Others demand
 * that their own text goes with every copy; it is held to what their jars carry.
 */
class LicencesTest {
  @ParameterizedTest
  @CsvSource(
      textBlock =
          """
          org.bouncycastle, org.bouncycastle.crypto.params.Ed25519PrivateKeyParameters, META-INF/LICENSE.md
          org.slf4j, org.slf4j.Logger, META-INF/LICENSE.txt
          org.postgresql, org.postgresql.Driver, META-INF/LICENSE
          """)
  void licence_isThatOfTheJar(String owner, String type, String file) throws Exception {
    Path jar =
        Path.of(Class.forName(type).getProtectionDomain().getCodeSource().getLocation().toURI());
    try (JarFile their = new JarFile(jar.toFile());
        InputStream theirs = their.getInputStream(their.getEntry(file));
        InputStream ours =
            LicencesTest.class.getResourceAsStream("/META-INF/licenses/" + owner + "/LICENSE")) {
      assertThat(text(Objects.requireNonNull(ours))).isEqualTo(text(theirs));
    }
  }

  private static String text(InputStream from) throws Exception {
    return new String(from.readAllBytes(), StandardCharsets.UTF_8);
  }
}
