package ferrule.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Arrows between the modules. Those inside core are held by core's own test. */
@AnalyzeClasses(packages = "ferrule", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

  @ArchTest
  static final ArchRule modules =
      layeredArchitecture()
          .consideringOnlyDependenciesInLayers()
          .layer("core")
          .definedBy("ferrule.core..")
          .layer("store")
          .definedBy("ferrule.store..")
          .layer("record")
          .definedBy("ferrule.record..")
          .optionalLayer("vision")
          .definedBy("ferrule.vision..")
          .layer("app")
          .definedBy("ferrule.app..")
          .whereLayer("app")
          .mayNotBeAccessedByAnyLayer()
          .whereLayer("record")
          .mayOnlyBeAccessedByLayers("app")
          .whereLayer("vision")
          .mayOnlyBeAccessedByLayers("app")
          .whereLayer("store")
          .mayOnlyBeAccessedByLayers("app")
          .whereLayer("core")
          .mayOnlyBeAccessedByLayers("store", "record", "vision", "app")
          .because(
              "what is true of fibre must not depend on how it is kept or shown, and the record must"
                  + " not depend on the store: an owner recomputes it without one");

  @ArchTest
  static final ArchRule databaseStaysInTheStore =
      noClasses()
          .that()
          .resideOutsideOfPackage("ferrule.store.job..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.sql..", "javax.sql..", "org.sqlite..", "org.flywaydb..")
          .because(
              "one package knows how entries are kept, so that another store can take its place");

  @ArchTest
  static final ArchRule tableLibrariesStayInTheIntake =
      noClasses()
          .that()
          .resideOutsideOfPackages(
              "ferrule.store.intake..", "ferrule.record.data..", "ferrule.record.audit..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("de.siegmar..", "org.dhatim..")
          .because(
              "units and times are converted once, at the edge; an audit reads back what the record"
                  + " wrote, cell by cell, and converts nothing");

  @ArchTest
  static final ArchRule webStaysAtTheDesk =
      noClasses()
          .that()
          .resideOutsideOfPackage("ferrule.app.desk..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("io.javalin..", "org.eclipse.jetty..", "jakarta.servlet..")
          .because("a command must not start a web server to print a line");

  @ArchTest
  static final ArchRule commandLineStaysInFront =
      noClasses()
          .that()
          .resideInAnyPackage(
              "ferrule.core..",
              "ferrule.store..",
              "ferrule.record..",
              "ferrule.app.desk..",
              "ferrule.app.demo..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("picocli..", "ferrule.app.command..")
          .because("commands are thin: they call services, services do not know them");

  @ArchTest
  static final ArchRule nobodyEndsTheProcess =
      noClasses()
          .that()
          .doNotHaveFullyQualifiedName("ferrule.app.Main")
          .should()
          .callMethod(System.class, "exit", int.class)
          .because(
              "exit codes are decided in one place, and tests run commands in their own process");

  @ArchTest
  static final ArchRule noCyclesBetweenPackages =
      slices()
          .matching("ferrule.(store|record).(*)..")
          .should()
          .beFreeOfCycles()
          .because("packages that need each other are one package");

  @ArchTest
  static final ArchRule commandsAreThin =
      classes()
          .that()
          .resideInAPackage("ferrule.app.command..")
          .should()
          .onlyBeAccessed()
          .byAnyPackage("ferrule.app", "ferrule.app.command..")
          .because("nothing but the command line may depend on a command");
}
