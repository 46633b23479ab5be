package evenside.readiness.recording;

import evenside.schemas.Fault;
import evenside.schemas.Faults;
import java.util.List;

/** A use case that was refused: nothing was stored. */
public final class Refused extends RuntimeException {
  private final Refusal refusal;
  private final transient List<Fault> faults;
  private final boolean truncated;

  private Refused(Refusal refusal, String detail, List<Fault> faults) {
    super(detail);
    this.refusal = refusal;
    this.faults = faults.stream().limit(Faults.MAX).toList();
    this.truncated = faults.size() > Faults.MAX;
  }

  /** Refused for a reason, one sentence. */
  public static Refused because(Refusal refusal, String detail) {
    return new Refused(refusal, detail, List.of());
  }

  /** Refused for the faults of a document. */
  public static Refused faulty(List<Fault> faults) {
    boolean version =
        faults.stream().anyMatch(fault -> fault.code().equals("schema-version.unsupported"));
    return new Refused(
        version ? Refusal.UNSUPPORTED_VERSION : Refusal.INVALID,
        faults.size() + (faults.size() == 1 ? " fault" : " faults") + "; nothing was stored",
        faults);
  }

  public Refusal refusal() {
    return refusal;
  }

  /** What happened, one sentence. */
  public String detail() {
    return String.valueOf(getMessage());
  }

  /** Every fault of the document, at most {@link Faults#MAX}. */
  public List<Fault> faults() {
    return faults;
  }

  /** True if there were more faults than shown. */
  public boolean truncated() {
    return truncated;
  }
}
