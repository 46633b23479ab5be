package evenside;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Which package may see what. */
@AnalyzeClasses(packages = "evenside", importOptions = DoNotIncludeTests.class)
class ArchitectureTest {
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

  /**
   * The store keeps bytes and the few columns that are searched; it knows nothing of their meaning.
   */
  @ArchTest
  static final ArchRule theStoreSeesNoOtherRoom =
      noClasses()
          .that()
          .resideInAPackage("evenside.store..")
          .should()
          .dependOnClassesThat(
              describe(
                  "are of another room",
                  type ->
                      type.getPackageName().startsWith("evenside.")
                          && !type.getPackageName().startsWith("evenside.store")));
}
