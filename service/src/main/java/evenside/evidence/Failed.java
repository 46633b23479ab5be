package evenside.evidence;

import java.util.function.Supplier;

/** Ends the checks of a bundle with the one that failed. */
final class Failed extends RuntimeException {
  private static final long serialVersionUID = 1;
  private final transient Verification.Check check;

  private Failed(Verification.Check check) {
    super(check.detail());
    this.check = check;
  }

  Verification.Check check() {
    return check;
  }

  static Failed failed(String check, String detail) {
    return new Failed(new Verification.Check(check, false, detail));
  }

  static void demand(boolean holds, String check, String otherwise) {
    if (!holds) {
      throw failed(check, otherwise);
    }
  }

  /** What cannot be read fails the check that reads it. */
  static <T> T attempt(String check, Supplier<T> attempt) {
    try {
      return attempt.get();
    } catch (IllegalArgumentException e) {
      throw failed(check, String.valueOf(e.getMessage()));
    }
  }
}
