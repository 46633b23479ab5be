package evenside.decision;

import static evenside.example.TestDay.OPERATED;
import static evenside.example.TestDay.OTHER;

import evenside.example.Clinic;
import evenside.example.TestDay;
import evenside.example.Verdict;
import tools.jackson.databind.node.ObjectNode;

/**
 * A case in which nothing calls for a caution but what always does, and the error of strength
 * symmetry, which is so wide that 100 % is near 90 %.
 */
final class Plain {
  static final String SET = "delaware-oslo/2020.1";
  static final String NOW = "2026-10-28T10:00:00+01:00";

  private Plain() {}

  static Verdict verdict() {
    return Clinic.ask(SET, person(), Clinic.TODAY, day());
  }

  static ObjectNode person() {
    ObjectNode person = Clinic.person().put("graft", "other");
    person.putObject("sport").put("name", "tennis").put("level", "level-2");
    return person;
  }

  static TestDay day() {
    return TestDay.meetingEverything(NOW);
  }

  static TestDay dayWithHops(double operated, double other) {
    return day()
        .without("single-hop-distance")
        .hop("single-hop-distance", OPERATED, operated)
        .hop("single-hop-distance", OTHER, other);
  }
}
