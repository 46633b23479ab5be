package evenside.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.LongSupplier;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CanonicalNumberTest {
  /** The generator counts this many numbers up from the smallest normal double. */
  private static final int SERIAL = 2_000;

  private static final long SMALLEST_NORMAL = 0x0010_0000_0000_0000L;

  /** RFC 8785, Appendix B; see the top of the file. */
  @ParameterizedTest
  @CsvFileSource(resources = "/jcs/appendix-b.csv", useHeadersInDisplayName = true)
  void number_isPrintedAsInAppendixB(String bits, String text) {
    double number = Double.longBitsToDouble(Long.parseUnsignedLong(bits, 16));
    assertThat(text(number)).isEqualTo(text);
  }

  /**
   * The published checksums of the first lines of the number test file, lines of the form bits,
   * comma, text: one digit wrong in any of them changes the sum.
   *
   * <p>Source: {@code testdata/README.md} of github.com/cyberphone/json-canonicalization.
   */
  @ParameterizedTest
  @CsvSource({
    "1000, be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687",
    "10000, b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892",
    "100000, 22776e6d4b49fa294a0d0f349268e5c28808fe7e0cb2bcbe28f63894e494d4c7"
  })
  void generatedNumbers_haveThePublishedChecksum(int lines, String sha256)
      throws IOException, NoSuchAlgorithmException {
    MessageDigest sum = MessageDigest.getInstance("SHA-256");
    LongSupplier generator = generator();
    for (int line = 0; line < lines; line++) {
      long bits = generator.getAsLong();
      String text = text(Double.longBitsToDouble(bits));
      sum.update((Long.toHexString(bits) + "," + text + "\n").getBytes(StandardCharsets.US_ASCII));
    }
    assertThat(HexFormat.of().formatHex(sum.digest())).isEqualTo(sha256);
  }

  /** RFC 8785 asks for an error at each of them (from memory). */
  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void numberThatJsonHasNot_isRefused(double number) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> text(number))
        .withMessageContaining(String.valueOf(number));
  }

  /** The short ways against the platform's decimals, which take none. */
  @Test
  void decimals_areTheFewestDigitsThatReadBack() {
    RandomGenerator random = new SplittableRandom(6);
    for (int i = 0; i < 200_000; i++) {
      BigDecimal decimal =
          BigDecimal.valueOf(random.nextLong() >> random.nextInt(10, 64), random.nextInt(12));
      double number = decimal.doubleValue();
      assertThat(text(number)).isEqualTo(fewest(number));
    }
  }

  private static String fewest(double number) {
    BigDecimal exact = new BigDecimal(number);
    for (int digits = 1; ; digits++) {
      BigDecimal rounded = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
      if (rounded.doubleValue() == number) {
        return written(rounded.stripTrailingZeros());
      }
    }
  }

  /** As ECMAScript writes numbers below 1e21: with an exponent only if below a millionth. */
  private static String written(BigDecimal number) {
    if (number.signum() == 0 || number.abs().compareTo(new BigDecimal("0.000001")) >= 0) {
      return number.toPlainString();
    }
    String digits = number.unscaledValue().abs().toString();
    return (number.signum() < 0 ? "-" : "")
        + digits.charAt(0)
        + (digits.length() > 1 ? "." + digits.substring(1) : "")
        + "e"
        + (number.precision() - number.scale() - 1);
  }

  private static String text(double number) {
    byte[] bytes = new byte[CanonicalNumber.LONGEST];
    int length = CanonicalNumber.write(number, bytes, 0);
    return new String(bytes, 0, length, StandardCharsets.US_ASCII);
  }

  /**
   * Fixed numbers, then a count upwards, then eight-byte pieces of hashes of hashes, starting from
   * 32 zero bytes, without zeros and what is no number.
   */
  private static LongSupplier generator() throws IOException, NoSuchAlgorithmException {
    List<Long> fixed = fixed();
    MessageDigest chain = MessageDigest.getInstance("SHA-256");
    ByteBuffer block = ByteBuffer.wrap(new byte[32]).order(ByteOrder.LITTLE_ENDIAN);
    block.position(block.capacity());
    int[] given = {0};
    return () -> {
      int index = given[0]++;
      if (index < fixed.size()) {
        return fixed.get(index);
      }
      if (index < fixed.size() + SERIAL) {
        return SMALLEST_NORMAL + index - fixed.size();
      }
      double number;
      do {
        if (!block.hasRemaining()) {
          byte[] next = chain.digest(block.array());
          block.clear().put(next).flip();
        }
        number = Double.longBitsToDouble(block.getLong());
      } while (number == 0 || !Double.isFinite(number));
      return Double.doubleToRawLongBits(number);
    };
  }

  private static List<Long> fixed() throws IOException {
    try (InputStream in = CanonicalNumberTest.class.getResourceAsStream("/jcs/numgen.csv")) {
      String text = new String(in.readAllBytes(), StandardCharsets.US_ASCII);
      return text.lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> Long.parseUnsignedLong(line, 16))
          .toList();
    }
  }
}
