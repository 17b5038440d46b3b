package ferrule.core.application;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import ferrule.core.checks.CheckFile;
import ferrule.core.optics.FibreCategory;
import ferrule.core.rulebook.Confidence;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ShippedApplicationsTest {

  private static Application find(String name, FibreCategory category) {
    List<Application> found =
        ShippedApplications.all().stream()
            .filter(a -> a.isCalled(name) && a.categories().contains(category))
            .toList();
    assertThat(found).hasSize(1);
    return found.get(0);
  }

  static List<NamedCsvRecord> published() {
    return CheckFile.table("/checks/applications.csv");
  }

  /**
   * Values printed by two independent publishers, named in the file and in each figure's source.
   */
  @ParameterizedTest
  @MethodSource("published")
  void limitsSeenAtTwoPublishersAreHeld(NamedCsvRecord row) {
    String name = row.getField("name");
    FibreCategory category = FibreCategory.ofLabel(row.getField("category")).orElseThrow();
    double lossDb = Double.parseDouble(row.getField("most_loss_db"));
    double lengthM = Double.parseDouble(row.getField("length_m"));
    Application application = find(name, category);
    assertThat(application.mostLoss().orElseThrow().value()).isEqualTo(lossDb);
    assertThat(application.mostLoss().orElseThrow().provenance().confidence())
        .isEqualTo(Confidence.TWO_SOURCES);
    assertThat(application.mostLength().orElseThrow().value()).isEqualTo(lengthM);
  }

  /**
   * 1.5 dB for connections and 3.6 dB/km, a line drawn through the values that IBM Docs prints for
   * short-wave Fibre Channel, gives each of them from 4GFC to 32GFC to 0.03 dB.
   */
  @Test
  void shortWaveFibreChannelFollowsOneLine() {
    List<Application> shortWave =
        ShippedApplications.all().stream()
            .filter(a -> a.name().matches("(4|8|16|32)GFC \\(.*-SN.*"))
            .toList();
    assertThat(shortWave).hasSize(14);
    for (Application application : shortWave) {
      double km = application.mostLength().orElseThrow().value() / 1000;
      assertThat(application.mostLoss().orElseThrow().value())
          .as(application.name())
          .isCloseTo(1.5 + 3.6 * km, within(0.03));
    }
  }

  /** Least losses of access classes: the one that overloads a receiver; remembered, and said so. */
  @ParameterizedTest
  @CsvSource({"B+,13", "C+,17", "XGS-PON N1,14", "N2,16", "E1,18", "E2,20"})
  void leastLossesOfAccessClassesAreShownAsRemembered(String name, double lossDb) {
    Application application = find(name, FibreCategory.OS2);
    assertThat(application.leastLoss().orElseThrow().value()).isEqualTo(lossDb);
    assertThat(application.leastLoss().orElseThrow().provenance().fromMemory()).isTrue();
  }

  @Test
  void wrongEntriesAreRefusedWithTheirLine() {
    String text =
        """
        [[application]]
        family = "Ethernet"
        name = "X"
        fibre = ["OM9"]
        wavelengths_nm = [850]
        fibres = 2
        most_loss_db = -1.0
        length_confidence = "memory"
        length_seen_in = "memory"
        standard = "S"
        confidence = "memory"
        seen_in = "memory"
        speed = 3
        """;
    ApplicationReader.Outcome outcome = ApplicationReader.read("own.toml", text);
    assertThat(outcome.applications()).isEmpty();
    assertThat(outcome.problems()).extracting(p -> p.line()).anyMatch(l -> l.contains("OM9"));
    assertThat(outcome.problems()).extracting(p -> p.line()).anyMatch(l -> l.contains("-1.0"));
    assertThat(outcome.problems())
        .extracting(p -> p.line())
        .anyMatch(l -> l.startsWith("own.toml, row 13") && l.contains("speed"));
  }
}
