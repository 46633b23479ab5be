package evenside.api;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import io.javalin.http.Context;

/** The arrows of the api module. */
@AnalyzeClasses(packages = "evenside", importOptions = DoNotIncludeTests.class)
class ArchitectureTest {
  @ArchTest
  static final ArchRule server_isKnownToApiOnly =
      noClasses()
          .that()
          .resideOutsideOfPackage("evenside.api..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("io.javalin..", "jakarta.servlet..", "org.eclipse.jetty..");

  @ArchTest
  static final ArchRule server_isKnownToItsPackageOnly =
      noClasses()
          .that()
          .resideInAnyPackage(
              "evenside.api.resource..", "evenside.api.problem..", "evenside.api.demo..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("io.javalin..", "jakarta.servlet..", "org.eclipse.jetty..");

  /** Bodies are read strictly, so never by the server's own mapper. */
  @ArchTest
  static final ArchRule body_isNeverReadByTheServersMapper =
      noClasses()
          .should()
          .callMethodWhere(
              target(nameMatching("body.*|json.*"))
                  .and(target(owner(assignableTo(Context.class)))));

  @ArchTest
  static final ArchRule sql_isUnknown =
      noClasses()
          .that()
          .resideInAPackage("evenside.api..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.sql..", "javax.sql..", "org.jdbi..", "com.zaxxer.hikari..");

  /**
   * The store is opened in one place; beside that filters, a failure and rows of jobs are known.
   */
  @ArchTest
  static final ArchRule store_isKnownToTheWiringOnly =
      noClasses()
          .that()
          .resideInAPackage("evenside.api..")
          .and()
          .doNotHaveSimpleName("RunningService")
          .and()
          .doNotHaveSimpleName("Place")
          .and()
          .doNotHaveSimpleName("Signing")
          .and()
          .doNotHaveSimpleName("Upkeep")
          .and()
          .doNotHaveSimpleName("MoveCommand")
          .and()
          .doNotHaveSimpleName("Watch")
          .should()
          .dependOnClassesThat(
              resideInAPackage("evenside.store..")
                  .and(
                      not(
                          nameMatching(
                              ".*(DecisionFilter|CohortFilter|StoreException|Job[A-Z]\\w+|StoredJob)")))
                  .as("reside in evenside.store"));

  /** Use cases are asked through ReadinessService; what they share among them stays among them. */
  @ArchTest
  static final ArchRule workingsOfUseCases_areUnknown =
      noClasses()
          .that()
          .resideInAPackage("evenside.api..")
          .should()
          .dependOnClassesThat(
              resideInAPackage("evenside.readiness.computing")
                  .and(not(nameMatching(".*AdviceQuestion")))
                  .or(nameMatching("evenside\\.readiness\\..*\\.(Records|Recording|ClinicSets)"))
                  .as("are the workings of use cases"));

  @ArchTest
  static final ArchRule calculation_isUnknown =
      noClasses()
          .that()
          .resideInAPackage("evenside.api..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "evenside.assessment..",
              "evenside.battery..",
              "evenside.criteria..",
              "evenside.decision..",
              "evenside.intake..",
              "evenside.measure..",
              "evenside.symmetry..");

  @ArchTest
  static final ArchRule packages_areFreeOfCycles =
      slices().matching("evenside.api.(*)..").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule http_knowsNoResource =
      noClasses()
          .that()
          .resideInAnyPackage("evenside.api.http..", "evenside.api.server..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("evenside.api.resource..", "evenside.api.demo..");

  /** The commands are one way in among others. */
  @ArchTest
  static final ArchRule commandLine_isUnknown =
      noClasses()
          .that()
          .resideOutsideOfPackage("evenside.api.command..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("evenside.api.command..");
}
