package evenside.api.command;

import evenside.readiness.CheckReport;
import evenside.schemas.Fault;
import evenside.schemas.NotJson;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * What the check of one file found.
 *
 * @param path where it is
 * @param verdict what it is
 * @param report the check; absent if there was nothing to check
 * @param notJson why it is not JSON; absent if it is
 */
record CheckedFile(
    Path path, Verdict verdict, Optional<CheckReport> report, Optional<NotJson> notJson) {
  /** What a file is, from best to worst. */
  enum Verdict {
    VALID("valid", Main.OK),
    FAULTY("faulty", Main.FAULTY),
    NOT_JSON("not-json", Main.FAULTY),
    UNKNOWN_KIND("unknown-kind", Main.FAILED);

    private final String code;
    private final int exitCode;

    Verdict(String code, int exitCode) {
      this.code = code;
      this.exitCode = exitCode;
    }

    String code() {
      return code;
    }

    int exitCode() {
      return exitCode;
    }
  }

  static CheckedFile of(Path path, CheckReport report) {
    Verdict verdict = report.valid() ? Verdict.VALID : Verdict.FAULTY;
    return new CheckedFile(path, verdict, Optional.of(report), Optional.empty());
  }

  static CheckedFile notJson(Path path, NotJson notJson) {
    return new CheckedFile(path, Verdict.NOT_JSON, Optional.empty(), Optional.of(notJson));
  }

  static CheckedFile ofUnknownKind(Path path) {
    return new CheckedFile(path, Verdict.UNKNOWN_KIND, Optional.empty(), Optional.empty());
  }

  /** Everything that is wrong with it; for what is not JSON that one thing, of the whole file. */
  List<Fault> faults() {
    return report
        .map(CheckReport::faults)
        .or(() -> notJson.map(e -> List.of(fault(e))))
        .orElse(List.of());
  }

  private static Fault fault(NotJson notJson) {
    String detail =
        notJson
            .location()
            .map(at -> notJson.detail() + " (line " + at.line() + ", column " + at.column() + ")")
            .orElse(notJson.detail());
    return new Fault("#", notJson.code(), detail, Optional.empty(), Optional.empty());
  }

  /** The form in a report. */
  ObjectNode toJson() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("file", path.toString().replace('\\', '/')).put("verdict", verdict.code());
    report.ifPresent(one -> json.put("kind", one.kind()));
    var faults = json.putArray("faults");
    faults().forEach(fault -> faults.add(fault.toJson()));
    json.put("truncated", report.map(CheckReport::truncated).orElse(false));
    var warnings = json.putArray("warnings");
    report.ifPresent(one -> one.warnings().forEach(fault -> warnings.add(fault.toJson())));
    return json;
  }
}
