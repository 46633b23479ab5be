package evenside.intake;

import evenside.limb.Side;
import evenside.progression.Progression;
import evenside.training.Exercise;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** What the schema of a training record's entry cannot say, as far as the entry alone shows it. */
final class SessionRules {
  static final Duration NEXT_MORNING = Duration.ofDays(2);

  private static final List<String> NEXT_MORNING_ANSWERS =
      List.of(
          "/pain/nextMorning", "/soreness/nextDay", "/effusion/nextMorning", "/swollenNextMorning");

  private static final String WORK = "/entry/training/work/";

  private final TrainingCatalogue catalogue;
  private final RuleFaults faults;
  private final RuleFaults warnings;

  SessionRules(TrainingCatalogue catalogue, RuleFaults faults, RuleFaults warnings) {
    this.catalogue = catalogue;
    this.faults = faults;
    this.warnings = warnings;
  }

  /**
   * Checks one entry.
   *
   * @param operatedSide of the case, or null where the case is not known
   * @param surgery day of the reconstruction, or null where the case is not known
   */
  void check(JsonNode json, @Nullable Side operatedSide, @Nullable LocalDate surgery, Instant now) {
    Optional<OffsetDateTime> at = CommonRules.instant(json, "performedAt", now, faults);
    at.ifPresent(time -> afterSurgery(time.toLocalDate(), surgery, "/performedAt"));
    CommonRules.instant(json, "recordedAt", now, faults);
    CommonRules.extensions(json, faults);
    CommonRules.precision(json.path("entry"), "/entry", faults);
    CommonRules.side(json, operatedSide, faults);
    JsonNode entry = json.path("entry");
    JsonNode training = entry.path("training");
    if (training.isObject()) {
      for (Map.Entry<String, JsonNode> family : training.path("work").properties()) {
        family(family.getKey(), family.getValue(), training);
      }
      nextMorning(training.path("response"), "/entry/training/response", at, now);
      unanswered(training.path("redFlags"), "/entry/training/redFlags");
    }
    JsonNode check = entry.path("kneeCheck");
    if (check.isObject()) {
      nextMorning(check.path("response"), "/entry/kneeCheck/response", Optional.empty(), now);
      unanswered(check.path("redFlags"), "/entry/kneeCheck/redFlags");
    }
    restDays(entry.path("restDays"), surgery, at, now);
  }

  /** Every rule of the training record is about training after the reconstruction. */
  private void afterSurgery(LocalDate day, @Nullable LocalDate surgery, String pointer) {
    if (surgery != null && day.isBefore(surgery)) {
      faults.add(
          pointer,
          RuleCode.DATE_BEFORE_SURGERY,
          "before the surgery, with which the training record begins",
          "from " + surgery + " on");
    }
  }

  private void family(String family, JsonNode items, JsonNode training) {
    for (int i = 0; i < items.size(); i++) {
      JsonNode item = items.path(i);
      String pointer = WORK + family + "/" + i;
      String member = family.equals("drills") ? "drill" : "exercise";
      String code = item.path(member).asString("");
      Optional<Exercise> exercise = catalogue.exercise(code);
      if (item.path(member).isString() && exercise.isEmpty()) {
        faults.add(
            pointer + "/" + member,
            RuleCode.EXERCISE_UNKNOWN,
            "the catalogue has no such exercise; /v1/exercises lists them");
      }
      exercise.ifPresent(known -> exercise(known, family, item, pointer, training));
      progression(family, code, item, pointer + "/progression");
      plan(item.path("planned"), pointer + "/planned");
    }
  }

  private void exercise(
      Exercise exercise, String family, JsonNode item, String pointer, JsonNode training) {
    if (!exercise.family().equals(family)) {
      String member = family.equals("drills") ? "/drill" : "/exercise";
      faults.add(
          pointer + member,
          RuleCode.EXERCISE_WRONG_FAMILY,
          "this exercise belongs to another kind of work",
          exercise.family());
      return;
    }
    if (exercise.legs() == Exercise.Legs.SINGLE) {
      side(item, pointer);
    }
    if (!exercise.isAlone() && training.has("therapistPresent")) {
      if (!training.path("therapistPresent").asBoolean(true)) {
        warnings.add(
            pointer,
            RuleCode.THERAPIST_NOT_PRESENT,
            exercise.title() + " is usually done with a " + exercise.supervision());
      }
    }
  }

  private void side(JsonNode item, String pointer) {
    if (item.path("side").asString("").equals("both")) {
      faults.add(
          pointer + "/side",
          RuleCode.SIDE_MISSING,
          "this exercise is done one leg at a time: one entry for each leg",
          "left, right");
    }
    for (String member : List.of("planned", "completed")) {
      JsonNode contacts = item.path(member);
      boolean counts = contacts.has("both") || contacts.has("left") || contacts.has("right");
      boolean sided = contacts.has("left") || contacts.has("right");
      if (counts && (!sided || contacts.path("both").asInt(0) > 0)) {
        faults.add(
            pointer + "/" + member,
            RuleCode.SIDE_MISSING,
            "this drill is done on one leg: say which foot the contacts are of",
            "left, right");
      }
    }
  }

  private void progression(String family, String exercise, JsonNode item, String pointer) {
    JsonNode progression = item.path("progression");
    if (!progression.path("id").isString()) {
      return;
    }
    Optional<Progression> found =
        catalogue
            .progressions()
            .find(progression.path("id").asString(), CatalogueReader.text(progression, "version"));
    if (found.isEmpty()) {
      faults.add(
          pointer + "/id",
          RuleCode.PROGRESSION_UNKNOWN,
          "there is no such progression in this version; /v1/progressions lists them");
      return;
    }
    Progression set = found.get();
    boolean forIt = set.exercises().isEmpty() || set.exercises().contains(exercise);
    if (!set.appliesTo().equals(family) || !forIt) {
      faults.add(
          pointer + "/id",
          RuleCode.PROGRESSION_WRONG_FAMILY,
          "this progression is for another kind of work or another exercise",
          set.exercises().isEmpty() ? set.appliesTo() : String.join(", ", set.exercises()));
      return;
    }
    level(progression, set, pointer);
  }

  private void level(JsonNode progression, Progression set, String pointer) {
    int level = progression.path("level").asInt(0);
    if (set.level(level).isEmpty() && progression.path("level").isInt()) {
      faults.add(
          pointer + "/level",
          RuleCode.LEVEL_UNKNOWN,
          set.hasLevels() ? "the progression has no such level" : "this progression has no levels",
          set.hasLevels() ? "1 to " + set.lastLevel() : "none");
      return;
    }
    JsonNode before = progression.path("levelBefore");
    if (before.isInt() && level > before.asInt() + 1) {
      faults.add(
          pointer + "/level",
          RuleCode.LEVEL_SKIPPED,
          "the last session was level " + before.asInt() + "; progressions go one level at a time",
          "at most " + (before.asInt() + 1));
    }
  }

  private void plan(JsonNode planned, String pointer) {
    JsonNode most = planned.path("repetitionsMost");
    if (most.isNumber() && most.asInt() < planned.path("repetitions").asInt(0)) {
      faults.add(
          pointer + "/repetitionsMost",
          RuleCode.RANGE_REVERSED,
          "the upper end lies below the lower end",
          "at least " + planned.path("repetitions").asInt());
    }
  }

  private void nextMorning(
      JsonNode response, String pointer, Optional<OffsetDateTime> session, Instant now) {
    RuleFaults below = new RuleFaults(faults.root().append(pointer(pointer)));
    Optional<OffsetDateTime> morning = CommonRules.instant(response, "nextMorningAt", now, below);
    faults.addAll(below);
    if (session.isEmpty()) {
      return;
    }
    if (morning.isEmpty()) {
      notYet(response, pointer, session.get(), now);
      return;
    }
    if (!isNextDay(session.get(), morning.get())) {
      faults.add(
          pointer + "/nextMorningAt",
          RuleCode.NEXT_MORNING_BEFORE_SESSION,
          "the next morning comes on a day after the session",
          "after " + session.get().toLocalDate());
    } else if (isLate(session.get(), morning.get())) {
      late(pointer + "/nextMorningAt", warnings);
    }
  }

  /** Nobody can say on the evening of a session how the knee is the next morning. */
  private void notYet(JsonNode response, String pointer, OffsetDateTime session, Instant now) {
    OffsetDateTime latest = now.plus(CommonRules.CLOCK_DIFFERENCE).atOffset(session.getOffset());
    if (response.has("nextMorningAt") || isNextDay(session, latest)) {
      return;
    }
    for (String answer : NEXT_MORNING_ANSWERS) {
      if (!response.at(answer).isMissingNode()) {
        faults.add(
            pointer + answer,
            RuleCode.NEXT_MORNING_BEFORE_SESSION,
            "the morning after this session has not come yet; send the answer then, in a knee check"
                + " that completes this entry",
            "after " + session.toLocalDate());
      }
    }
  }

  private static tools.jackson.core.JsonPointer pointer(String text) {
    return tools.jackson.core.JsonPointer.compile(text);
  }

  static boolean isNextDay(OffsetDateTime session, OffsetDateTime morning) {
    return morning.isAfter(session) && morning.toLocalDate().isAfter(session.toLocalDate());
  }

  static boolean isLate(OffsetDateTime session, OffsetDateTime morning) {
    return Duration.between(session, morning).compareTo(NEXT_MORNING) > 0;
  }

  static void late(String pointer, RuleFaults warnings) {
    warnings.add(
        pointer,
        RuleCode.NEXT_MORNING_LATE,
        "this is more than two days after the session and says little about its next morning");
  }

  private void unanswered(JsonNode redFlags, String pointer) {
    List<String> questions = catalogue.progressions().inputs().redFlags();
    long answered =
        redFlags.properties().stream()
            .filter(member -> questions.contains(SessionReader.code(member.getKey())))
            .filter(member -> !member.getValue().asString("unknown").equals("unknown"))
            .count();
    if (answered < questions.size()) {
      warnings.add(
          pointer,
          RuleCode.RED_FLAGS_UNANSWERED,
          "an unanswered red-flag question is not a no; no step up before all are answered",
          questions.size() + " questions, " + answered + " answered");
    }
  }

  private void restDays(
      JsonNode days, @Nullable LocalDate surgery, Optional<OffsetDateTime> at, Instant now) {
    LocalDate today = CommonRules.latestToday(now);
    LocalDate last = at.map(OffsetDateTime::toLocalDate).filter(today::isAfter).orElse(today);
    for (int i = 0; i < days.size(); i++) {
      Optional<LocalDate> day = CommonRules.date(days.path(i));
      String pointer = "/entry/restDays/" + i;
      day.ifPresent(rest -> afterSurgery(rest, surgery, pointer));
      if (day.isPresent() && day.get().isAfter(last)) {
        faults.add(
            pointer,
            RuleCode.DATE_IN_FUTURE,
            "a day of rest is recorded on that day or later",
            "at the latest " + last);
      }
    }
  }
}
