package evenside.load;

import java.util.List;

/**
 * Which standard deviation a monotony is made with. The source says "standard deviation" only; one
 * page says population, spreadsheets take the sample. Over seven days the monotony with the
 * population's is √(7/6) times the other.
 */
public enum SdMethod {
  SAMPLE("sample"),
  POPULATION("population");

  private final String code;

  SdMethod(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }

  /** Standard deviation of at least two numbers. */
  double of(List<Double> numbers) {
    double mean = numbers.stream().mapToDouble(d -> d).average().orElseThrow();
    double squares = numbers.stream().mapToDouble(d -> (d - mean) * (d - mean)).sum();
    return Math.sqrt(squares / (this == SAMPLE ? numbers.size() - 1 : numbers.size()));
  }
}
