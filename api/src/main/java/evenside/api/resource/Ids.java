package evenside.api.resource;

import evenside.api.http.Call;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.schemas.Contract;
import evenside.schemas.Form;

/** Reads ids out of paths. What cannot be an id names nothing, so it is not found. */
public final class Ids {
  private Ids() {}

  /** Whether a case can have this id. */
  public static boolean isCaseId(String id) {
    return Form.IDENTIFIER.fits(id);
  }

  /** Whether it is an id as the service gives them. */
  public static boolean isUuid(String id) {
    return Form.UUID.fits(id);
  }

  static String caseId(Call call) {
    return matching(Form.IDENTIFIER, call.id("caseId"), "the id of a case");
  }

  static String uuid(Call call, String name) {
    return matching(Form.UUID, call.id(name), "the id of a record");
  }

  static String code(Call call, String name) {
    return matching(Form.CODE, call.id(name), "a code");
  }

  /** A kind of document; asked before the body is read. */
  static String kind(Call call, Contract contract) {
    String kind = call.id("kind");
    if (!contract.kinds().contains(kind)) {
      throw Problem.of(
              ProblemType.NOT_FOUND,
              "There is no kind of document of this name; /v1/schemas lists them.")
          .asException();
    }
    return kind;
  }

  static String version(Call call) {
    return matching(Form.VERSION, call.id("version"), "a version");
  }

  /**
   * What is not an id is not found like one that is not there, but with the reason.
   *
   * @param what names the thing
   */
  private static String matching(Form form, String id, String what) {
    if (!form.fits(id)) {
      throw Problem.of(
              ProblemType.NOT_FOUND,
              "There is nothing at this path, and there cannot be: %s %s, %d characters at most."
                  .formatted(what, form.words(), form.longest()))
          .asException();
    }
    return id;
  }
}
