package ferrule.core;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.belongToAnyOf;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.simpleName;
import static com.tngtech.archunit.lang.conditions.ArchPredicates.are;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import ferrule.core.rulebook.ShippedRulebooks;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * The arrows of core and its purity; and proof, on a house built wrong, that each rule can fail.
 */
class ArchitectureTest {

  /** Each package may know those before it. */
  private static final List<String> ROW =
      List.of(
          "optics",
          "rulebook",
          "plant",
          "array",
          "zero",
          "allowance",
          "uncertainty",
          "isolation",
          "job",
          "trust",
          "sample",
          "application",
          "plan",
          "entry");

  private static final Set<String> MAY_KNOW_FACE = Set.of("job", "trust");

  private static final JavaClasses CORE =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("ferrule.core");

  private static final JavaClasses BAD_HOUSE =
      new ClassFileImporter().importPackages("ferrule.core.badhouse");

  private static Map<String, ArchRule> rules(String root) {
    Map<String, ArchRule> rules = new LinkedHashMap<>();
    for (int i = 0; i < ROW.size(); i++) {
      List<String> later = new ArrayList<>();
      for (String name : ROW.subList(i + 1, ROW.size())) {
        later.add(root + "." + name + "..");
      }
      if (!MAY_KNOW_FACE.contains(ROW.get(i))) {
        later.add(root + ".face..");
      }
      if (!later.isEmpty()) {
        rules.put(
            ROW.get(i) + " knows only what stands before it",
            noClasses()
                .that()
                .resideInAPackage(root + "." + ROW.get(i) + "..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(later.toArray(new String[0]))
                .because(
                    "arrows point one way, from trust down to optics: what is true of light must not"
                        + " hang on how a job is judged"));
      }
    }
    rules.put("plant knows of rulebooks only the grade of a cord", plantKnowsOnlyCordGrade(root));
    rules.put(
        "face stands beside",
        noClasses()
            .that()
            .resideInAPackage(root + ".face..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                root + ".zero..",
                root + ".allowance..",
                root + ".uncertainty..",
                root + ".job..",
                root + ".trust..")
            .because("an end face is graded by its rulebook alone, whatever was measured"));
    rules.put(
        "core knows no module above it",
        noClasses()
            .that()
            .resideInAPackage(root + "..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                "ferrule.store..",
                "ferrule.record..",
                "ferrule.app..",
                "ferrule.vision..",
                root + ".store..")
            .because("store, record, vision and the app stand on core, never under it"));
    rules.put(
        "every package is null-marked",
        classes()
            .that()
            .resideInAPackage(root + "..")
            .should(resideInANullMarkedPackage())
            .because(
                "a missing value is an Optional, and the compiler checks it only where marked"));
    return rules;
  }

  private static ArchRule plantKnowsOnlyCordGrade(String root) {
    return noClasses()
        .that()
        .resideInAPackage(root + ".plant..")
        .should()
        .dependOnClassesThat(
            resideInAnyPackage(root + ".rulebook..").and(not(simpleName("CordGrade"))))
        .because("what is built does not change with the limits it is held to");
  }

  private static ArchCondition<JavaClass> resideInANullMarkedPackage() {
    return new ArchCondition<>("reside in a null-marked package") {
      @Override
      public void check(JavaClass item, ConditionEvents events) {
        boolean marked =
            item.getPackage()
                .tryGetPackageInfo()
                .filter(info -> info.isAnnotatedWith(NullMarked.class))
                .isPresent();
        events.add(
            new SimpleConditionEvent(
                item, marked, item.getPackageName() + (marked ? " is" : " is not") + " marked"));
      }
    };
  }

  /** What core must not do, each named by the method of the bad house that does it. */
  private static Map<String, ArchRule> purity() {
    Map<String, ArchRule> rules = new LinkedHashMap<>();
    String same = "the same job gives the same judgement, whenever and wherever it is judged";
    String bare = "core opens nothing: whoever calls it hands it what it needs";
    rules.put("file", noUseOf(resideInAnyPackage("java.io.."), bare));
    rules.put("path", noUseOf(resideInAnyPackage("java.nio.file..", "java.nio.channels.."), bare));
    rules.put("sql", noUseOf(resideInAnyPackage("java.sql..", "javax.sql.."), bare));
    rules.put("net", noUseOf(resideInAnyPackage("java.net..", "javax.net.."), bare));
    rules.put("clock", noUseOf(belongToAnyOf(java.time.Clock.class), same));
    rules.put("now", noCallOf(same, "java.time.", "now"));
    rules.put("today", noCallOf(same, "java.time.LocalDate", "now"));
    rules.put("millis", noCallOf(same, "java.lang.System", "currentTimeMillis"));
    rules.put("nanos", noCallOf(same, "java.lang.System", "nanoTime"));
    rules.put(
        "random",
        noUseOf(
            belongToAnyOf(
                java.util.Random.class,
                java.util.SplittableRandom.class,
                java.security.SecureRandom.class),
            same));
    rules.put(
        "threadLocalRandom",
        noUseOf(belongToAnyOf(java.util.concurrent.ThreadLocalRandom.class), same));
    rules.put("mathRandom", noCallOf(same, "java.lang.Math", "random"));
    rules.put("uuid", noCallOf(same, "java.util.UUID", "randomUUID"));
    rules.put(
        "log",
        noUseOf(
            resideInAnyPackage("java.util.logging..", "org.slf4j..", "org.apache.logging.."),
            "core says what it has to say in what it returns"));
    rules.put(
        "print",
        noClasses()
            .should()
            .accessTargetWhere(
                JavaAccess.Predicates.target(
                    new DescribedPredicate<>("is a stream of System") {
                      @Override
                      public boolean test(com.tngtech.archunit.core.domain.AccessTarget target) {
                        return target.getOwner().isEquivalentTo(System.class)
                            && Set.of("out", "err", "in").contains(target.getName());
                      }
                    }))
            .because("core says what it has to say in what it returns"));
    rules.put(
        "resource",
        noCallOf("ShippedRulebooks alone reads the program's own resources", "", "getResource"));
    rules.put("environment", noCallOf(same, "java.lang.System", "getProperty"));
    return rules;
  }

  /**
   * ShippedRulebooks is the one exception: it reads the rulebooks that are part of the program,
   * like constants, from its own resources.
   */
  private static ArchRule noUseOf(DescribedPredicate<JavaClass> what, String because) {
    return noClasses()
        .that()
        .doNotBelongToAnyOf(ShippedRulebooks.class)
        .should()
        .dependOnClassesThat(what)
        .because(because);
  }

  private static ArchRule noCallOf(String because, String owner, String method) {
    return noClasses()
        .that()
        .doNotBelongToAnyOf(ShippedRulebooks.class)
        .should()
        .callMethodWhere(
            new DescribedPredicate<>("calls " + owner + " " + method) {
              @Override
              public boolean test(com.tngtech.archunit.core.domain.JavaMethodCall call) {
                return call.getTargetOwner().getName().startsWith(owner)
                    && call.getName().startsWith(method);
              }
            })
        .because(because);
  }

  @TestFactory
  Stream<DynamicTest> coreKeepsEachRule() {
    return Stream.concat(
        rules("ferrule.core").entrySet().stream()
            .map(rule -> DynamicTest.dynamicTest(rule.getKey(), () -> rule.getValue().check(CORE))),
        purity().entrySet().stream()
            .map(
                rule ->
                    DynamicTest.dynamicTest(
                        "core does nothing like " + rule.getKey(),
                        () -> rule.getValue().check(CORE))));
  }

  @Test
  void shippedRulebooksUseNothingButTheirOwnStream() {
    classes()
        .that()
        .belongToAnyOf(ShippedRulebooks.class)
        .should()
        .onlyDependOnClassesThat(
            resideInAnyPackage("java.lang..", "java.util..", "org.jspecify..", "ferrule.core..")
                .or(
                    belongToAnyOf(
                        java.io.InputStream.class,
                        java.io.IOException.class,
                        java.io.UncheckedIOException.class,
                        java.nio.charset.StandardCharsets.class,
                        java.nio.charset.Charset.class)))
        .because("the exception is for one stream of the program's own resources and no more")
        .check(CORE);
  }

  @TestFactory
  Stream<DynamicTest> eachPurityRuleFailsOnTheBadHouse() {
    return purity().entrySet().stream()
        .map(
            rule ->
                DynamicTest.dynamicTest(
                    rule.getKey(),
                    () ->
                        assertThat(complaints(rule.getValue()))
                            .as("a complaint about the method of this name")
                            .anyMatch(line -> line.contains("Impure." + rule.getKey() + "()"))));
  }

  @Test
  void eachArrowRuleFailsOnTheBadHouse() {
    rules("ferrule.core.badhouse")
        .forEach(
            (name, rule) ->
                assertThat(complaints(rule))
                    .as(name)
                    .anyMatch(
                        line ->
                            line.contains("Doubting")
                                || line.contains("badhouse.face.Face")
                                || line.contains("badhouse.rulebook.Rulebook")
                                || line.contains("badhouse.store.Table")
                                || line.contains("badhouse.trust is not marked")));
  }

  @Test
  void theGradeOfACordIsNoBreach() {
    assertThat(complaints(plantKnowsOnlyCordGrade("ferrule.core.badhouse")))
        .isNotEmpty()
        .noneMatch(line -> line.contains("of type <ferrule.core.badhouse.rulebook.CordGrade>"));
  }

  private static List<String> complaints(ArchRule rule) {
    return rule.evaluate(BAD_HOUSE).getFailureReport().getDetails();
  }

  @Test
  void everyPackageOfCoreIsInTheRowOrBesideIt() {
    List<String> known = new ArrayList<>(ROW);
    known.add("face");
    assertThat(CORE)
        .allSatisfy(
            type -> {
              String rest = type.getPackageName().substring("ferrule.core".length());
              if (!rest.isEmpty()) {
                assertThat(known).contains(rest.substring(1).split("\\.", -1)[0]);
              }
            });
  }

  @Test
  void librariesStayWhereTheyAreNeeded() {
    noClasses()
        .that()
        .resideOutsideOfPackage("ferrule.core.rulebook.toml..")
        .should()
        .dependOnClassesThat(are(resideInAnyPackage("org.tomlj..")))
        .because("everyone else reads TOML through the quick way round this library")
        .check(CORE);
    noClasses()
        .that()
        .resideOutsideOfPackage("ferrule.core.uncertainty..")
        .should()
        .dependOnClassesThat(are(resideInAnyPackage("org.apache.commons..")))
        .because("probability is asked of the uncertainty package")
        .check(CORE);
  }
}
