package ferrule.trial;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import ferrule.core.allowance.Expectations;
import ferrule.core.job.Job;
import ferrule.core.optics.GlassModel;
import ferrule.core.trust.AssessedReading;
import ferrule.core.trust.Judge;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The arrow of this module, and what of core it may not see. */
@AnalyzeClasses(packages = "ferrule", importOptions = ImportOption.DoNotIncludeTests.class)
class IndependenceTest {

  /** What a job is made of, and what a judge says. */
  private static final Set<String> OF_TRUST =
      Set.of(
          "Judge",
          "Judgement",
          "FibreJudgement",
          "Standing",
          "Doubt",
          "DoubtKind",
          "Cause",
          "Subject",
          "Reach",
          "Evidence",
          "Sight");

  private static final Set<String> MODELS_OF_OPTICS =
      Set.of("Glass", "GlassModel", "SingleModeCoupling");

  @ArchTest
  static final ArchRule itSharesNoModelWithTheJudge =
      noClasses()
          .that()
          .resideInAPackage("ferrule.trial..")
          .should()
          .dependOnClassesThat(describe("hold a model of the judge's", IndependenceTest::isModel))
          .because("a simulator that shares the judge's model cannot show where it is wrong");

  @ArchTest
  static final ArchRule itNeedsCoreOnly =
      noClasses()
          .that()
          .resideInAPackage("ferrule.trial..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("ferrule.store..", "ferrule.record..", "ferrule.app..")
          .because("jobs are made in memory and judged there");

  @ArchTest
  static final ArchRule nothingNeedsIt =
      noClasses()
          .that()
          .resideOutsideOfPackage("ferrule.trial..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("ferrule.trial..")
          .because("it is never shipped");

  @Test
  void theRuleKnowsAModelWhenItSeesOne() {
    JavaClasses classes =
        new ClassFileImporter()
            .importClasses(
                Expectations.class,
                GlassModel.class,
                AssessedReading.class,
                Judge.class,
                Job.class);
    assertThat(classes.stream().filter(IndependenceTest::isModel).map(JavaClass::getSimpleName))
        .containsExactlyInAnyOrder("Expectations", "GlassModel", "AssessedReading");
  }

  private static boolean isModel(JavaClass type) {
    String place = type.getPackageName();
    if (!place.startsWith("ferrule.core")) {
      return false;
    }
    String outer = type.getFullName().substring(place.length() + 1).split("\\$")[0];
    return place.startsWith("ferrule.core.allowance")
        || (place.startsWith("ferrule.core.trust")
            && !(place.equals("ferrule.core.trust") && OF_TRUST.contains(outer)))
        || (place.equals("ferrule.core.optics") && MODELS_OF_OPTICS.contains(outer));
  }
}
