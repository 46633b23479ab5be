package evenside.api.trace;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Which traces go on, against the cases of the W3C. */
class TraceContextTest {
  @ParameterizedTest(name = "{0}")
  @CsvFileSource(
      resources = "/published/w3c-traceparent.csv",
      ignoreLeadingAndTrailingWhitespace = false)
  void trace_goesOn_ifTheHeaderIsValid(String name, String headers, String goesOn) {
    List<String> sent =
        headers == null ? List.of() : Arrays.asList(headers.replace("\\t", "\t").split("\\|"));
    TraceContext ours = TraceContext.of(sent);
    assertThat(ours.traceId().equals("12345678901234567890123456789012"))
        .isEqualTo(goesOn.equals("yes"));
    assertThat(sent).noneMatch(header -> header.contains(ours.spanId()));
    // What we send on is valid itself, whatever came.
    assertThat(TraceContext.parent(ours.header())).contains(ours);
  }

  @Test
  void flag_sampled_isKeptAndNoOther() {
    String start = "00-12345678901234567890123456789012-1234567890123456-";
    assertThat(TraceContext.of(List.of(start + "ff")).header()).endsWith("-01");
    assertThat(TraceContext.of(List.of(start + "fe")).header()).endsWith("-00");
    assertThat(TraceContext.of(List.of()).header()).endsWith("-00");
  }

  @Test
  void span_isNewEachTime() {
    List<String> header = List.of("00-12345678901234567890123456789012-1234567890123456-01");
    assertThat(TraceContext.of(header).spanId()).isNotEqualTo(TraceContext.of(header).spanId());
  }
}
