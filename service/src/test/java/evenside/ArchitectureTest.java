package evenside;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Which package may see what. */
@AnalyzeClasses(packages = "evenside", importOptions = DoNotIncludeTests.class)
class ArchitectureTest {
  /** What each room of the computation may use; a room that is not named here is new. */
  private static final Map<String, Set<String>> ARROWS =
      Map.ofEntries(
          Map.entry("quantity", Set.of()),
          Map.entry("limb", Set.of()),
          Map.entry("signs", Set.of("quantity")),
          Map.entry("knee", Set.of("limb")),
          Map.entry("questionnaire", Set.of("quantity")),
          Map.entry("strength", Set.of("quantity")),
          Map.entry("hop", Set.of("quantity")),
          Map.entry("balance", Set.of("quantity")),
          Map.entry("measure", Set.of("quantity", "limb", "knee", "signs", "questionnaire")),
          Map.entry("symmetry", Set.of("quantity", "limb", "measure")),
          Map.entry("battery", Set.of("quantity", "limb", "measure", "questionnaire")),
          Map.entry(
              "assessment",
              Set.of(
                  "quantity",
                  "limb",
                  "knee",
                  "measure",
                  "symmetry",
                  "strength",
                  "hop",
                  "balance",
                  "signs",
                  "questionnaire",
                  "battery")),
          Map.entry("criteria", Set.of("quantity", "knee", "measure", "questionnaire", "signs")),
          Map.entry("trend", Set.of("quantity", "limb", "measure", "symmetry")),
          Map.entry("cohort", Set.of()),
          Map.entry(
              "plan",
              Set.of(
                  "quantity",
                  "knee",
                  "measure",
                  "criteria",
                  "decision",
                  "trend",
                  "progression",
                  "training")),
          Map.entry("decision", Set.of("criteria", "knee", "measure", "quantity", "signs")),
          Map.entry("merkle", Set.of()),
          Map.entry("note", Set.of("merkle")),
          Map.entry("ledger", Set.of("merkle", "note", "store")),
          Map.entry("clients", Set.of("store")),
          Map.entry("evidence", Set.of("merkle", "note", "ledger", "document", "schemas")));

  /** What the packages within the store may use of it; its root may use them all. */
  private static final Map<String, Set<String>> STORE_ARROWS =
      Map.of(
          "database", Set.of(),
          "upkeep", Set.of("database"),
          "work", Set.of("database"),
          "ledger", Set.of("database"),
          "clients", Set.of("database"),
          "evidence", Set.of("database"),
          "cohort", Set.of());

  /** Likewise among the use cases, whose root puts them together. */
  private static final Map<String, Set<String>> USE_CASE_ARROWS =
      Map.of(
          "computing", Set.of(),
          "recording", Set.of("computing"),
          "training", Set.of("computing", "recording"),
          "cases", Set.of("computing", "recording", "training"),
          "decision", Set.of("computing", "recording", "training", "cases"),
          "recovery", Set.of("computing", "recording", "training", "cases", "decision"),
          "audit", Set.of("computing", "recording", "decision"));

  /** JSON is read in one place, written in another, and carried through by the use cases. */
  private static final String[] KNOW_JSON = {
    "evenside.intake..",
    "evenside.document..",
    "evenside.evidence..",
    "evenside.readiness..",
    "evenside.schemas.."
  };

  private static final String[] KNOW_THE_TIME = {
    "evenside.readiness..", "evenside.store..", "evenside.ledger..", "evenside.clients.."
  };

  @ArchTest
  static void aRoomUsesOnlyWhatItMay(JavaClasses classes) {
    ARROWS.forEach(
        (room, allowed) ->
            noClasses()
                .that()
                .resideInAPackage("evenside." + room + "..")
                .should()
                .dependOnClassesThat(otherThan(room, allowed))
                .check(classes));
  }

  @ArchTest
  static void aPackageOfTheStoreUsesOnlyWhatItMay(JavaClasses classes) {
    checkWithin("store", STORE_ARROWS, classes);
  }

  @ArchTest
  static void aPackageOfUseCasesUsesOnlyWhatItMay(JavaClasses classes) {
    checkWithin("readiness", USE_CASE_ARROWS, classes);
  }

  /** A decision is a function of its inputs and its criteria set: decision 37. */
  @ArchTest
  static final ArchRule computingSeesNoRecordAndNoClock =
      noClasses()
          .that()
          .resideInAPackage("evenside.readiness.computing")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("evenside.store..", "evenside.ledger..")
          .orShould()
          .dependOnClassesThat()
          .haveFullyQualifiedName("java.time.InstantSource");

  /** So there is no circle either. */
  private static void checkWithin(
      String room, Map<String, Set<String>> arrows, JavaClasses classes) {
    arrows.forEach(
        (part, allowed) ->
            noClasses()
                .that()
                .resideInAPackage("evenside." + room + "." + part + "..")
                .should()
                .dependOnClassesThat(otherPartThan(room, part, allowed))
                .check(classes));
    Set<String> parts =
        classes.stream()
            .map(JavaClass::getPackageName)
            .filter(name -> name.startsWith("evenside." + room + "."))
            .map(name -> name.split("\\.")[2])
            .collect(Collectors.toSet());
    assertThat(parts).isEqualTo(arrows.keySet());
  }

  @ArchTest
  static final ArchRule noRoomsGoRoundInACircle =
      slices().matching("evenside.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule onlyIntakeDocumentAndUseCasesSeeJson =
      noClasses()
          .that()
          .resideOutsideOfPackages(KNOW_JSON)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("tools.jackson..", "com.fasterxml.jackson..", "com.networknt..");

  /** Requests come and go elsewhere. */
  @ArchTest
  static final ArchRule nobodySeesHttp =
      noClasses()
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("io.javalin..", "jakarta.servlet..", "java.net.http..");

  @ArchTest
  static final ArchRule computationHasNoClock =
      noClasses()
          .that()
          .resideOutsideOfPackages(KNOW_THE_TIME)
          .should()
          .dependOnClassesThat()
          .haveFullyQualifiedName("java.time.Clock")
          .orShould()
          .dependOnClassesThat()
          .haveFullyQualifiedName("java.time.InstantSource")
          .orShould()
          .callMethodWhere(readsTheTime());

  /** Even the use cases take the time from the clock they are given. */
  @ArchTest
  static final ArchRule useCasesAskTheClockTheyAreGiven =
      noClasses()
          .that()
          .resideInAPackage("evenside.readiness..")
          .should()
          .callMethodWhere(readsTheTime());

  @ArchTest
  static final ArchRule onlyTheStoreSeesTheDatabase =
      noClasses()
          .that()
          .resideOutsideOfPackages("evenside.store..", "evenside.ledger..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.sql..",
              "javax.sql..",
              "org.jdbi..",
              "org.flywaydb..",
              "com.zaxxer.hikari..",
              "org.h2..",
              "org.postgresql..");

  /** What is of one database only is known where a database is opened. */
  @ArchTest
  static final ArchRule onlyTheDatabaseKnowsWhichItIs =
      noClasses()
          .that()
          .resideOutsideOfPackage("evenside.store.database")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.h2..", "org.postgresql..", "org.flywaydb..");

  /**
   * The store keeps bytes and the few columns that are searched; it knows nothing of their meaning.
   */
  @ArchTest
  static final ArchRule theStoreSeesNoOtherRoom =
      noClasses()
          .that()
          .resideInAPackage("evenside.store..")
          .should()
          .dependOnClassesThat(otherThan("store", Set.of()));

  private static DescribedPredicate<JavaClass> otherThan(String room, Set<String> allowed) {
    List<String> open =
        Stream.concat(Stream.of(room), allowed.stream()).map(name -> "evenside." + name).toList();
    return describe(
        "are of a room other than " + room + " " + allowed,
        type ->
            type.getPackageName().startsWith("evenside.")
                && open.stream().noneMatch(name -> inside(type.getPackageName(), name)));
  }

  private static DescribedPredicate<JavaClass> otherPartThan(
      String room, String part, Set<String> allowed) {
    return describe(
        "are of " + room + " but not of its " + part + " " + allowed,
        type ->
            inside(type.getPackageName(), "evenside." + room)
                && Stream.concat(Stream.of(part), allowed.stream())
                    .noneMatch(
                        name -> inside(type.getPackageName(), "evenside." + room + "." + name)));
  }

  private static boolean inside(String packageName, String room) {
    return packageName.equals(room) || packageName.startsWith(room + ".");
  }

  private static DescribedPredicate<JavaMethodCall> readsTheTime() {
    return describe(
        "read the time",
        call -> {
          AccessTarget target = call.getTarget();
          String owner = target.getOwner().getPackageName();
          return (owner.equals("java.time") && target.getName().equals("now"))
              || target.getFullName().startsWith("java.lang.System.currentTimeMillis")
              || target.getFullName().startsWith("java.lang.System.nanoTime");
        });
  }
}
