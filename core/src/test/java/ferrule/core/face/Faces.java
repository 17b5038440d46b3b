package ferrule.core.face;

import java.util.List;

/** Faces for tests: a circle of 125 µm at half a micrometre a pixel, shown whole. */
final class Faces {

  private Faces() {}

  static Examined.Seen seen(Flaw... flaws) {
    return seen(List.of(flaws));
  }

  static Examined.Seen seen(List<Flaw> flaws) {
    return new Examined.Seen(Cladding.circle(640, 480, 125), 0.5, 0.5, 1.2, 400, flaws);
  }

  /** A flaw at a distance from the centre, its size known well enough. */
  static Flaw flaw(FlawKind kind, double sizeUm, double atUm) {
    return flaw(kind, sizeUm, atUm, 0);
  }

  static Flaw flaw(FlawKind kind, double sizeUm, double atUm, double uncertaintyUm) {
    double length = kind == FlawKind.SCRATCH ? sizeUm + 20 : sizeUm;
    return new Flaw(kind, atUm, 0, length, sizeUm, uncertaintyUm, -0.2, atUm, atUm + 0.001);
  }

  static Flaw defect(double sizeUm, double atUm) {
    return flaw(FlawKind.DEFECT, sizeUm, atUm);
  }

  static Flaw scratch(double widthUm, double atUm) {
    return flaw(FlawKind.SCRATCH, widthUm, atUm);
  }
}
