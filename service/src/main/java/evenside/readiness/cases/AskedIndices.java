package evenside.readiness.cases;

import evenside.readiness.recording.Refused;
import evenside.schemas.Fault;
import evenside.symmetry.SymmetryIndex;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** The symmetry indices that a caller asks for beside the limb symmetry index. */
public final class AskedIndices {
  private AskedIndices() {}

  /** Of a request that its schema has accepted. */
  public static List<SymmetryIndex> of(JsonNode request) {
    List<SymmetryIndex> asked = new ArrayList<>();
    request.path("indices").forEach(code -> asked.add(SymmetryIndex.named(code.asString())));
    return asked.stream().distinct().toList();
  }

  /** By their codes; refused if there is no such index. */
  static List<SymmetryIndex> read(List<String> codes) {
    List<Fault> faults = new ArrayList<>();
    List<SymmetryIndex> asked = new ArrayList<>();
    for (int i = 0; i < codes.size(); i++) {
      String code = codes.get(i);
      List<SymmetryIndex> named =
          Arrays.stream(SymmetryIndex.values()).filter(index -> index.code().equals(code)).toList();
      asked.addAll(named);
      if (named.isEmpty()) {
        faults.add(
            Fault.at(
                    JsonPointer.compile("/indices/" + i),
                    "value.not-allowed",
                    "there is no such symmetry index")
                .withLimit(String.join(", ", codes())));
      }
    }
    if (!faults.isEmpty()) {
      throw Refused.faulty(faults);
    }
    return asked.stream().distinct().toList();
  }

  static List<String> codes() {
    return Arrays.stream(SymmetryIndex.values()).map(SymmetryIndex::code).toList();
  }
}
