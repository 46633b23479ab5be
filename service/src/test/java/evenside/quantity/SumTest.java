package evenside.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

class SumTest {
  /** The platform's sum of a stream is the one that results were recorded with. */
  @Test
  void anyNumbers_haveThePlatformsSum() {
    RandomGenerator random = new SplittableRandom(1);
    for (int i = 0; i < 100_000; i++) {
      double[] numbers = random.doubles(random.nextInt(12), -500, 500).toArray();
      for (int j = 0; j < numbers.length; j++) {
        numbers[j] = numbers[j] * Math.pow(10, random.nextInt(-8, 8));
      }
      assertThat(Sum.of(numbers)).isEqualTo(DoubleStream.of(numbers).sum());
    }
  }

  /** Ten times 0.1 is 1 on paper; added one by one it is 0.9999999999999999. */
  @Test
  void errorOfEachStep_isCarriedAlong() {
    double[] tenths = DoubleStream.generate(() -> 0.1).limit(10).toArray();
    assertThat(Sum.of(tenths)).isEqualTo(1);
    double[] thirds = DoubleStream.generate(() -> 1 / 3.0).limit(3_000).toArray();
    BigDecimal exact = new BigDecimal(1 / 3.0).multiply(BigDecimal.valueOf(3_000));
    assertThat(Sum.of(thirds)).isEqualTo(exact.doubleValue());
  }

  @Test
  void nothing_isZero() {
    assertThat(Sum.of()).isZero();
  }
}
