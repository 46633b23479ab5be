package evenside.api.resource;

import evenside.api.http.Call;
import evenside.api.problem.Problem;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import evenside.schemas.Contract;
import java.util.regex.Pattern;

/** Reads ids out of paths. What cannot be an id names nothing, so it is not found. */
public final class Ids {
  private static final Pattern CASE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._:-]{0,63}");
  private static final Pattern UUID =
      Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
  private static final Pattern CODE = Pattern.compile("[a-z0-9][a-z0-9-]{1,63}");
  private static final Pattern VERSION = Pattern.compile("[0-9][0-9.]{0,15}");

  private Ids() {}

  /** Whether a case can have this id. */
  public static boolean isCaseId(String id) {
    return CASE.matcher(id).matches();
  }

  /** Whether it is an id as the service gives them. */
  public static boolean isUuid(String id) {
    return UUID.matcher(id).matches();
  }

  static String caseId(Call call) {
    return matching(
        CASE,
        call.id("caseId"),
        "the id of a case is 1 to 64 letters of the English alphabet, digits and . _ : - without"
            + " spaces, the first a letter or digit");
  }

  static String uuid(Call call, String name) {
    return matching(
        UUID,
        call.id(name),
        "the id of a record is a UUID in small letters, as the service gave it");
  }

  static String code(Call call, String name) {
    return matching(CODE, call.id(name), "a code is small letters, digits and hyphens");
  }

  /** A kind of document; asked before the body is read. */
  static String kind(Call call, Contract contract) {
    String kind = call.id("kind");
    if (!contract.kinds().contains(kind)) {
      throw Problems.NOTHING_HERE.asException();
    }
    return kind;
  }

  static String version(Call call) {
    return matching(VERSION, call.id("version"), "a version is digits and dots, as in 2020.1");
  }

  /**
   * What is not an id is not found like one that is not there, but with the reason.
   *
   * @param words what the form asks for
   */
  private static String matching(Pattern form, String id, String words) {
    if (!form.matcher(id).matches()) {
      throw Problem.of(
              ProblemType.NOT_FOUND,
              "There is nothing at this path, and there cannot be: " + words + ".")
          .asException();
    }
    return id;
  }
}
