package evenside.api.command;

import evenside.api.command.CheckedFile.Verdict;
import evenside.readiness.CheckReport;
import evenside.schemas.Contract;
import evenside.schemas.Fault;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Writes the report of a check, for a person or for a program. */
final class CheckPrinter {
  private final Contract contract;
  private final PrintWriter out;

  CheckPrinter(Contract contract, PrintWriter out) {
    this.contract = contract;
    this.out = out;
  }

  /** One file, for a person. */
  void file(CheckedFile file) {
    out.printf("%s: %s%n", Plain.text(file.path().toString()), verdict(file));
    if (file.verdict() == Verdict.NOT_JSON) {
      notJson(file);
      return;
    }
    file.faults().forEach(fault -> out.println("  " + line(fault)));
    if (file.report().map(CheckReport::truncated).orElse(false)) {
      out.println("  and more");
    }
    file.report()
        .ifPresent(
            one -> one.warnings().forEach(fault -> out.println("  warning: " + line(fault))));
  }

  private void notJson(CheckedFile file) {
    file.notJson()
        .ifPresent(
            one -> {
              String place =
                  one.location()
                      .map(at -> "line " + at.line() + ", column " + at.column())
                      .orElse("#");
              out.printf("  %s  %s  %s%n", place, one.code(), Plain.text(one.detail()));
            });
  }

  private static String verdict(CheckedFile file) {
    int count = file.faults().size();
    String kind = file.report().map(CheckReport::kind).orElse("");
    return switch (file.verdict()) {
      case VALID -> kind + ", valid";
      case FAULTY -> kind + ", " + count + (count == 1 ? " fault" : " faults");
      case NOT_JSON -> "not JSON";
      case UNKNOWN_KIND -> "cannot tell its kind; name it by --kind or by its folder";
    };
  }

  private static String line(Fault fault) {
    String limit = fault.limit().map(text -> " [" + text + "]").orElse("");
    return fault.pointer() + "  " + fault.code() + "  " + fault.detail() + limit;
  }

  /** All of them, for a person: the counts, and what each code that came up means. */
  void summary(List<CheckedFile> files) {
    Map<Verdict, Long> counts = counts(files);
    out.printf(
        "%n%d %s: %d valid, %d faulty, %d not JSON, %d of unknown kind%n",
        files.size(),
        files.size() == 1 ? "document" : "documents",
        counts.getOrDefault(Verdict.VALID, 0L),
        counts.getOrDefault(Verdict.FAULTY, 0L),
        counts.getOrDefault(Verdict.NOT_JSON, 0L),
        counts.getOrDefault(Verdict.UNKNOWN_KIND, 0L));
    Map<String, Long> codes =
        files.stream()
            .flatMap(file -> file.faults().stream())
            .collect(Collectors.groupingBy(Fault::code, TreeMap::new, Collectors.counting()));
    if (!codes.isEmpty()) {
      Map<String, String> meanings = meanings();
      out.println("What the codes mean:");
      codes.forEach(
          (code, count) ->
              out.printf("  %dx %s  %s%n", count, code, meanings.getOrDefault(code, "")));
    }
  }

  private Map<String, String> meanings() {
    Stream<JsonNode> codes = contract.catalogue("fault-codes").path("codes").valueStream();
    return codes.collect(
        Collectors.toMap(one -> one.path("code").asString(), one -> one.path("text").asString()));
  }

  /** All of them, for a program: a document of the kind {@code folder-report}. */
  void json(List<CheckedFile> files) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("schemaVersion", contract.schemaVersion());
    Map<Verdict, Long> counts = counts(files);
    ObjectNode summary = json.putObject("summary").put("documents", files.size());
    summary.put("valid", counts.getOrDefault(Verdict.VALID, 0L));
    summary.put("faulty", counts.getOrDefault(Verdict.FAULTY, 0L));
    summary.put("notJson", counts.getOrDefault(Verdict.NOT_JSON, 0L));
    summary.put("unknownKind", counts.getOrDefault(Verdict.UNKNOWN_KIND, 0L));
    var documents = json.putArray("documents");
    files.forEach(file -> documents.add(file.toJson()));
    out.println(JsonMapper.shared().writerWithDefaultPrettyPrinter().writeValueAsString(json));
  }

  private static Map<Verdict, Long> counts(List<CheckedFile> files) {
    return files.stream()
        .map(CheckedFile::verdict)
        .collect(Collectors.groupingBy(Function.identity(), Collectors.counting()));
  }
}
