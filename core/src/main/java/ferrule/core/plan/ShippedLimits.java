package ferrule.core.plan;

import ferrule.core.application.Application;
import ferrule.core.application.ShippedApplications;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.Figure;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What the applications that come with Ferrule ask of a link. */
public final class ShippedLimits implements ApplicationLimits {

  /** Windows that rulebooks speak of, nm. */
  private static final List<Wavelength> WINDOWS =
      Stream.of(850, 1300, 1310, 1550, 1625).map(Wavelength::new).toList();

  private final List<Application> applications = ShippedApplications.all();

  @Override
  public Optional<Demand> of(String application, Link link) {
    return applications.stream()
        .filter(a -> a.isCalled(application) && a.categories().contains(link.category()))
        .filter(a -> !a.wavelengths().isEmpty())
        .findFirst()
        .map(ShippedLimits::demand);
  }

  private static Demand demand(Application application) {
    return new Demand(
        window(application.wavelengths().get(0)),
        value(application.mostLoss()),
        value(application.leastLoss()),
        value(application.mostLength()),
        Stream.of(application.mostLoss(), application.leastLoss(), application.mostLength())
            .flatMap(Optional::stream)
            .map(f -> f.provenance().line())
            .distinct()
            .collect(Collectors.joining("; ")));
  }

  private static OptionalDouble value(Optional<Figure> figure) {
    return figure.map(f -> OptionalDouble.of(f.value())).orElse(OptionalDouble.empty());
  }

  private static Wavelength window(Wavelength of) {
    return WINDOWS.stream()
        .min(Comparator.comparingInt(w -> Math.abs(w.nm() - of.nm())))
        .filter(w -> Math.abs(w.nm() - of.nm()) <= Application.NEAR_NM)
        .orElse(of);
  }
}
