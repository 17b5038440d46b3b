package ferrule.core.plan;

import ferrule.core.optics.FibreKind;
import ferrule.core.optics.Wavelength;
import ferrule.core.plant.Connector;
import ferrule.core.plant.Cord;
import ferrule.core.plant.Cord.CordEnd;
import ferrule.core.plant.Instrument;
import ferrule.core.plant.Link;
import ferrule.core.rulebook.CordGrade;
import ferrule.core.zero.Method;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Predicate;

/**
 * Cords and instruments on record, held against the links. A kit that is not on record is asked
 * nothing: it may come with the crew.
 */
final class KitQuestions {

  private static final String FIT =
      "a test cord has the core and the connectors of the links (public test-cord guides)";

  private KitQuestions() {}

  static void ask(Papers papers, Consumer<Question> out) {
    if (!papers.job.cords().isEmpty()) {
      cords(papers, out);
    }
    if (!papers.job.instruments().isEmpty()) {
      wavelengths(papers, out);
      certificates(papers, out);
    }
  }

  /** Why a cord does not fit. */
  private enum Misfit {
    FIBRE(QuestionKind.CORD_FIBRE),
    POLISH(QuestionKind.CORD_POLISH),
    CONNECTOR(QuestionKind.CORD_CONNECTOR);

    final QuestionKind kind;

    Misfit(QuestionKind kind) {
      this.kind = kind;
    }

    /** The least of the reasons why a cord does not fit an end. */
    static Misfit of(Cord cord, ZeroSetup setup, Connector connector) {
      if (cord.endFor(connector).isPresent()) {
        return FIBRE;
      }
      boolean family = hasEnd(cord, c -> c.sameFamily(connector));
      return family && cord.category().sameCoreAs(setup.glass()) ? POLISH : CONNECTOR;
    }
  }

  private static boolean hasEnd(Cord cord, Predicate<Connector> which) {
    return cord.end1().connector().filter(which).isPresent()
        || cord.end2().connector().filter(which).isPresent();
  }

  private static void cords(Papers papers, Consumer<Question> out) {
    Set<String> told = new HashSet<>();
    Map<NeedKey, List<Link>> needs = new LinkedHashMap<>();
    papers.bySetup.forEach(
        (setup, links) -> {
          for (Connector end : new LinkedHashSet<>(List.of(setup.first(), setup.second()))) {
            if (papers.fit.fitting(setup, end).isEmpty() && !papers.fit.unknown(setup)) {
              needs
                  .computeIfAbsent(new NeedKey(setup.glassShown(), end), k -> new ArrayList<>())
                  .addAll(links);
            }
          }
        });
    needs.forEach((need, links) -> noCord(papers, need, links, told, out));
    papers.bySetup.forEach((setup, links) -> method(papers, setup, links, out));
    unfit(papers, told, out);
    grades(papers, out);
  }

  private record NeedKey(String glass, Connector end) {}

  private static void noCord(
      Papers papers, NeedKey need, List<Link> links, Set<String> told, Consumer<Question> out) {
    ZeroSetup setup = ZeroSetup.of(links.get(0));
    Misfit nearest = Misfit.CONNECTOR;
    List<String> near = new ArrayList<>();
    for (Cord cord : papers.job.cords()) {
      Misfit misfit = Misfit.of(cord, setup, need.end());
      if (misfit.ordinal() < nearest.ordinal()) {
        nearest = misfit;
        near.clear();
      }
      if (misfit == nearest && misfit != Misfit.CONNECTOR) {
        near.add(cord.id());
      }
    }
    String but =
        switch (nearest) {
          case FIBRE -> ": " + String.join(", ", near) + " would mate, but with another core";
          case POLISH ->
              ": "
                  + String.join(", ", near)
                  + " would need angled mated to straight, which harms both faces and must never be"
                  + " done";
          case CONNECTOR -> "";
        };
    told.addAll(near);
    out.accept(
        new Question(
            nearest.kind,
            "No cord on record fits the "
                + ZeroSetup.shown(need.end())
                + " ends of "
                + Papers.named(links)
                + ", "
                + need.glass()
                + but
                + ". Which cords shall be used?",
            FIT,
            Papers.ids(links),
            papers.prices.readAgain(links)));
  }

  /** Cords fit the ends, but there are not enough of them for the method. */
  private static void method(
      Papers papers, ZeroSetup setup, List<Link> links, Consumer<Question> out) {
    List<Cord> first = papers.fit.fitting(setup, setup.first());
    List<Cord> second = papers.fit.fitting(setup, setup.second());
    if (first.isEmpty() || second.isEmpty() || papers.fit.unknown(setup)) {
      return;
    }
    Method method = papers.job.requirement().method();
    boolean three = method == Method.THREE_CORD;
    if (!canSet(first, second, three ? papers.fit.joining(setup) : List.of(), three)) {
      Set<String> fitting = new LinkedHashSet<>();
      first.forEach(c -> fitting.add(c.id()));
      second.forEach(c -> fitting.add(c.id()));
      out.accept(
          new Question(
              QuestionKind.METHOD_KIT,
              "The method required, "
                  + method.word()
                  + ", takes a launch cord"
                  + (three ? ", a third cord between" : "")
                  + " and a receive cord, but of the cords on record only "
                  + String.join(", ", fitting)
                  + (fitting.size() == 1 ? " fits " : " fit ")
                  + Papers.named(links)
                  + ", "
                  + setup.shown()
                  + ". Which cords shall be used, or is another method meant?",
              "counts of cords of the method",
              Papers.ids(links),
              papers.prices.readAgain(links)));
    }
  }

  private static boolean canSet(
      List<Cord> launch, List<Cord> receive, List<Cord> joining, boolean three) {
    // Of each list any three are enough to find different ones.
    for (Cord one : few(launch)) {
      for (Cord two : few(receive)) {
        if (!one.id().equals(two.id())
            && (!three
                || few(joining).stream()
                    .anyMatch(j -> !j.id().equals(one.id()) && !j.id().equals(two.id())))) {
          return true;
        }
      }
    }
    return false;
  }

  private static List<Cord> few(List<Cord> cords) {
    return cords.subList(0, Math.min(cords.size(), 3));
  }

  /** Cords that fit no link at all and have not been named yet. */
  private static void unfit(Papers papers, Set<String> told, Consumer<Question> out) {
    for (Cord cord : papers.job.cords()) {
      if (told.contains(cord.id()) || !cord.connectorsKnown()) {
        continue;
      }
      Misfit nearest = Misfit.CONNECTOR;
      boolean fits = false;
      for (ZeroSetup setup : papers.bySetup.keySet()) {
        for (Connector end : List.of(setup.first(), setup.second())) {
          fits |= KitFit.fits(cord, setup, end);
          Misfit misfit = Misfit.of(cord, setup, end);
          nearest = misfit.ordinal() < nearest.ordinal() ? misfit : nearest;
        }
      }
      if (!fits) {
        out.accept(
            new Question(
                nearest.kind,
                "Cord "
                    + cord.id()
                    + ", "
                    + cord.category().label()
                    + ", "
                    + ends(cord)
                    + ", fits no link of this job"
                    + switch (nearest) {
                      case FIBRE -> ": its connectors do, its core does not";
                      case POLISH ->
                          ": angled must never meet straight, both faces would be harmed";
                      case CONNECTOR -> "";
                    }
                    + ". Is it written down right, and what is it for?",
                FIT,
                List.of(),
                papers.prices.lookUp("The list of cords is put right", 1)));
      }
    }
  }

  private static String ends(Cord cord) {
    return cord.end1().connector().map(Connector::toString).orElse("?")
        + " to "
        + cord.end2().connector().map(Connector::toString).orElse("?");
  }

  private static void grades(Papers papers, Consumer<Question> out) {
    for (Cord cord : papers.job.cords()) {
      List<Link> links = new ArrayList<>();
      papers.bySetup.forEach(
          (setup, of) -> {
            boolean ordinary = false;
            for (Connector end : List.of(setup.first(), setup.second())) {
              ordinary |=
                  KitFit.fits(cord, setup, end)
                      && cord.endFor(end)
                          .flatMap(CordEnd::grade)
                          .filter(g -> g == CordGrade.STANDARD)
                          .isPresent();
            }
            if (ordinary) {
              links.addAll(of);
            }
          });
      if (!links.isEmpty()) {
        out.accept(
            new Question(
                QuestionKind.CORD_GRADE,
                "Cord "
                    + cord.id()
                    + " is standard-grade where it would stand at "
                    + Papers.named(links)
                    + ": the full connection allowance would hold there, and the limit would hide"
                    + " more. Is that agreed, or must test cords be reference-grade?",
                "the rulebook's end connections by grade of cord",
                Papers.ids(links),
                papers.prices.readAgain(links)));
      }
    }
  }

  private static void wavelengths(Papers papers, Consumer<Question> out) {
    Map<FibreKind, List<Link>> byKind = new EnumMap<>(FibreKind.class);
    Map<FibreKind, SortedSet<Wavelength>> needed = new EnumMap<>(FibreKind.class);
    for (Link link : papers.job.links()) {
      FibreKind kind = link.category().kind();
      byKind.computeIfAbsent(kind, k -> new ArrayList<>()).add(link);
      needed
          .computeIfAbsent(kind, k -> new TreeSet<>())
          .addAll(papers.job.requirement().wavelengthsFor(link.category()));
    }
    needed.forEach(
        (kind, wavelengths) -> {
          for (Wavelength wavelength : wavelengths) {
            List<Link> links = byKind.getOrDefault(kind, List.of());
            wavelength(papers, links, wavelength, "sends", Instrument.Kind::sends, out);
            wavelength(papers, links, wavelength, "measures", Instrument.Kind::measures, out);
          }
        });
  }

  private static void wavelength(
      Papers papers,
      List<Link> links,
      Wavelength wavelength,
      String does,
      Predicate<Instrument.Kind> which,
      Consumer<Question> out) {
    boolean done =
        papers.job.instruments().stream()
            .anyMatch(
                i ->
                    which.test(i.kind())
                        && (i.wavelengths().isEmpty() || i.wavelengths().contains(wavelength)));
    if (!done) {
      out.accept(
          new Question(
              QuestionKind.KIT_WAVELENGTH,
              "No instrument on record "
                  + does
                  + " "
                  + wavelength
                  + ", at which "
                  + Papers.named(links)
                  + " must be read. Which one will, or is the wavelength not meant?",
              "the list of instruments against the requirement",
              Papers.ids(links),
              papers.prices.readAgain(links)));
    }
  }

  private static void certificates(Papers papers, Consumer<Question> out) {
    for (Instrument instrument : papers.job.instruments()) {
      LocalDate due = instrument.calibrationDue().orElse(null);
      String what = null;
      if (due != null && due.isBefore(papers.first)) {
        what = "is out of date on " + papers.first + ", the planned day: it was due on " + due;
      } else if (due != null && due.isBefore(papers.last)) {
        what =
            "runs out on "
                + due
                + ", before the work that starts on "
                + papers.first
                + " may be done, by "
                + papers.last;
      } else if (instrument.calibratedOn().filter(d -> d.isAfter(papers.first)).isPresent()) {
        what =
            "is of " + instrument.calibratedOn().get() + ", after the planned day, " + papers.first;
      }
      if (what != null) {
        List<Link> links = servedBy(papers, instrument);
        out.accept(
            new Question(
                QuestionKind.CERTIFICATE,
                "The certificate of "
                    + instrument.kind().word()
                    + " "
                    + instrument.id()
                    + " "
                    + what
                    + ". Will there be another one, or will a cross-check do?",
                "the list of instruments against the planned day",
                Papers.ids(links),
                papers.prices.readAgain(links)));
      }
    }
  }

  /** The links of which a required wavelength is one of the instrument's. */
  private static List<Link> servedBy(Papers papers, Instrument instrument) {
    return papers.job.links().stream()
        .filter(
            link ->
                instrument.wavelengths().isEmpty()
                    || papers.job.requirement().wavelengthsFor(link.category()).stream()
                        .anyMatch(instrument.wavelengths()::contains))
        .toList();
  }
}
