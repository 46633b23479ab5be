package evenside.schemas;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "evenside", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule module_knows_only_the_platform_jackson_3_and_the_validator =
      classes()
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "evenside.schemas..",
              "java..",
              "tools.jackson..",
              "com.networknt.schema..",
              "org.jspecify.annotations");

  @ArchTest
  static final ArchRule acceptor_knows_neither_the_contract_nor_the_validator =
      noClasses()
          .that()
          .resideInAPackage("evenside.schemas.acceptor")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("evenside.schemas", "com.networknt..");

  @ArchTest
  static final ArchRule module_opens_no_connection =
      noClasses().should().dependOnClassesThat().resideInAnyPackage("java.net..", "java.sql..");
}
