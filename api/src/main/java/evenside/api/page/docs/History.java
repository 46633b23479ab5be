package evenside.api.page.docs;

import evenside.schemas.Changes;
import evenside.schemas.Comparison;
import evenside.schemas.Contract;
import evenside.schemas.Difference;
import java.util.ArrayList;
import java.util.List;

/**
 * What changed with each version.
 *
 * @param schemas versions of the schemas, the newest first
 * @param api versions of the HTTP interface, the newest first
 */
public record History(List<Step> schemas, List<Changes.Version> api) {
  /**
   * A version and the one before.
   *
   * @param version the version
   * @param before number of the one before; empty for the first
   * @param differences between them
   */
  public record Step(Changes.Version version, String before, List<Difference> differences) {
    /** Keeps its own copies. */
    public Step {
      differences = List.copyOf(differences);
    }
  }

  /** Keeps its own copies. */
  public History {
    schemas = List.copyOf(schemas);
    api = List.copyOf(api);
  }

  /** The history of a contract. */
  public static History of(Changes changes, Contract contract) {
    List<Step> steps = new ArrayList<>();
    for (int i = 0; i < changes.schemas().size(); i++) {
      Changes.Version version = changes.schemas().get(i);
      boolean first = i + 1 == changes.schemas().size();
      String before = first ? "" : changes.schemas().get(i + 1).version();
      steps.add(
          new Step(
              version,
              before,
              first ? List.of() : Comparison.of(contract, before, version.version())));
    }
    return new History(steps, changes.api());
  }
}
