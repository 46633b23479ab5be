package evenside.intake;

import evenside.progression.Frequency;
import evenside.progression.Progression;
import evenside.training.Entry;
import evenside.training.PlannedLevel;
import evenside.training.Running;
import evenside.training.Session;
import evenside.training.Strength;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/**
 * What an entry must not say beside the other entries of its case.
 *
 * <p>Entries may come in any order, so nothing is refused for what may still be missing: a level
 * counts as skipped only if the plan could not have led to it by then, whatever was done in
 * between. What may be missing is warned of.
 */
final class RecordRules {
  private final TrainingCatalogue catalogue;
  private final List<Session> known;
  private final boolean arriving;
  private final RuleFaults faults;
  private final RuleFaults warnings;

  /**
   * Takes the other entries.
   *
   * @param known entries of the same case
   * @param arriving true if the others are recorded already, so that this one is at fault for what
   *     does not fit a later one; false where all come together and the later one is
   */
  RecordRules(
      TrainingCatalogue catalogue,
      List<Session> known,
      boolean arriving,
      RuleFaults faults,
      RuleFaults warnings) {
    this.catalogue = catalogue;
    this.known = List.copyOf(known);
    this.arriving = arriving;
    this.faults = faults;
    this.warnings = warnings;
  }

  void check(JsonNode json) {
    OffsetDateTime at;
    try {
      at = OffsetDateTime.parse(json.path("performedAt").asString(""));
    } catch (DateTimeException unknown) {
      return;
    }
    JsonNode entry = json.path("entry");
    kneeCheck(entry.path("kneeCheck"), at);
    clearance(entry.path("clearance").path("clears"), at);
    if (entry.path("training").isObject()) {
      if (arriving) {
        mornings(json.path("recordId").asString(""), at);
      }
      for (String family : List.of("running", "strength", "drills")) {
        JsonNode items = entry.path("training").path("work").path(family);
        for (int i = 0; i < items.size(); i++) {
          String pointer = "/entry/training/work/" + family + "/" + i + "/progression/level";
          level(items.path(i), pointer, at);
        }
      }
    }
  }

  private void kneeCheck(JsonNode check, OffsetDateTime at) {
    String reference = check.path("completes").asString("");
    if (reference.isEmpty()) {
      return;
    }
    Optional<Session> session = find(reference);
    if (session.isEmpty()) {
      missing(reference, "/entry/kneeCheck/completes");
    } else if (session.get().training().isEmpty()) {
      faults.add(
          "/entry/kneeCheck/completes",
          RuleCode.SESSION_NOT_TRAINING,
          "the entry named is not a training session and cannot be completed");
    } else {
      completes(check, at, session.get().performedAt());
    }
  }

  private void completes(JsonNode check, OffsetDateTime at, OffsetDateTime session) {
    boolean morning = isOfMorning(check.path("response"));
    boolean early = morning ? !SessionRules.isNextDay(session, at) : at.isBefore(session);
    if (early) {
      faults.add(
          "/performedAt",
          RuleCode.NEXT_MORNING_BEFORE_SESSION,
          "this is dated before the session it completes, or not on a day after it",
          "after " + (morning ? session.toLocalDate() : session));
    } else if (morning && SessionRules.isLate(session, at)) {
      SessionRules.late("/performedAt", warnings);
    }
  }

  private static boolean isOfMorning(JsonNode response) {
    return response.path("pain").has("nextMorning")
        || response.path("soreness").has("nextDay")
        || response.path("effusion").has("nextMorning")
        || response.has("swollenNextMorning");
  }

  /** Entries that complete this one and came before it. */
  private void mornings(String recordId, OffsetDateTime at) {
    for (Session other : known) {
      boolean completesThis =
          other.entry() instanceof Entry.KneeCheck check
              && !recordId.isEmpty()
              && check.completes().equals(Optional.of(recordId));
      if (completesThis && other.performedAt().isBefore(at)) {
        faults.add(
            "/performedAt",
            RuleCode.NEXT_MORNING_BEFORE_SESSION,
            "an entry that completes this session is recorded already and dated before it",
            "at the latest " + other.performedAt());
      }
    }
  }

  private void clearance(JsonNode clears, OffsetDateTime at) {
    for (int i = 0; i < clears.size(); i++) {
      String pointer = "/entry/clearance/clears/" + i;
      String reference = clears.path(i).asString("");
      Optional<Session> cleared = find(reference);
      if (cleared.isEmpty()) {
        missing(reference, pointer);
      } else if (cleared.get().performedAt().isAfter(at)) {
        faults.add(
            "/performedAt",
            RuleCode.CLEARANCE_BEFORE_ENTRY,
            "the clearance is dated before the entry it clears",
            "not before " + cleared.get().performedAt());
      }
    }
  }

  private Optional<Session> find(String reference) {
    return known.stream().filter(session -> session.isCalled(reference)).findFirst();
  }

  /** An identifier given by the service can be known only once the entry is there. */
  private void missing(String reference, String pointer) {
    if (reference.matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")) {
      faults.add(pointer, RuleCode.SESSION_UNKNOWN, "the record of this case has no such entry");
    } else {
      warnings.add(
          pointer,
          RuleCode.SESSION_NOT_HERE_YET,
          "the record of this case has no such entry yet; this one takes effect once it has");
    }
  }

  private void level(JsonNode item, String pointer, OffsetDateTime at) {
    JsonNode progression = item.path("progression");
    String code = progression.path("id").asString("");
    int level = progression.path("level").asInt(0);
    Optional<Progression> set =
        catalogue.progressions().find(code, CatalogueReader.text(progression, "version"));
    if (set.isEmpty() || set.get().level(level).isEmpty()) {
      return;
    }
    Session nearest = null;
    int nearestLevel = 0;
    for (Session other : known) {
      for (int known : levels(other, code)) {
        if (skips(set.get(), other, known, level, at)) {
          faults.add(
              pointer,
              RuleCode.LEVEL_SKIPPED,
              "with level " + known + " on " + other.performedOn() + " a level is skipped",
              "a progression goes one level at a time, as often as its limits allow");
          return;
        }
        boolean later = nearest == null || other.performedAt().isAfter(nearest.performedAt());
        if (later && other.performedAt().isBefore(at)) {
          nearest = other;
          nearestLevel = known;
        }
      }
    }
    if (level > nearestLevel + 1) {
      warnings.add(
          pointer,
          RuleCode.LEVEL_AHEAD_OF_RECORD,
          nearest == null
              ? "the record has no earlier session of this progression"
              : "the last session recorded before it was level " + nearestLevel);
    }
  }

  private boolean skips(
      Progression set, Session other, int otherLevel, int level, OffsetDateTime at) {
    boolean earlier = other.performedAt().isBefore(at);
    if (!earlier && !arriving) {
      return false;
    }
    int low = earlier ? otherLevel : level;
    int high = earlier ? level : otherLevel;
    long days = Math.abs(ChronoUnit.DAYS.between(other.performedOn(), at.toLocalDate()));
    return high > low + 1 && days < Frequency.fewestDays(set, low, high);
  }

  private static List<Integer> levels(Session session, String set) {
    List<PlannedLevel> planned = new ArrayList<>();
    session
        .training()
        .ifPresent(
            training -> {
              training.running().stream().map(Running::progression).forEach(planned::add);
              training.strength().stream().map(Strength::progression).forEach(planned::add);
              training.drills().forEach(drill -> planned.add(drill.progression()));
            });
    return planned.stream()
        .filter(progression -> progression != null && progression.id().equals(set))
        .map(PlannedLevel::level)
        .toList();
  }
}
