package ferrule.core.trust.joint;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * Which zeros' shifts the readings cannot tell from something else, by the posterior covariance.
 *
 * <p>The zero is set free of the prior of an honest one, and so is the other part in question: what
 * glass and connections of the job share, connections inside the links, a panel, the difference of
 * the directions. The shift is confounded with it if its standard deviation is then above {@value
 * #TELLING_DB} dB, half of the smallest shift worth a doubt, and were below the root of a half of
 * that if the other part were known: so that few readings, or much scatter, alone do not count as
 * confounding.
 *
 * <p>With {@code C} the posterior covariance, {@code P} the prior precision and {@code e} the
 * zero's levels, the information on the shift is {@code i_s = e'(P - PCP)e}, on a part of precision
 * {@code p} it is {@code i_r = p - pCp}, and {@code i_sr = -e'PCp} on both; the variance beside the
 * freed part is {@code i_r / (i_s i_r - i_sr^2)}.
 */
final class Confounding {

  /** A shift known less well than this is not told, dB. */
  static final double TELLING_DB = JointEstimate.HONEST_DB / 2;

  private static final double LEAST_INFORMATION = 1e-9;

  private final JointFit fit;
  private final Frame frame;
  private final boolean[] read;

  private Confounding(JointFit fit) {
    this.fit = fit;
    this.frame = fit.frame;
    this.read = new boolean[frame.levels.size()];
    for (int level : frame.levelOf) {
      read[level] = true;
    }
  }

  /** For each confounded zero what its shift cannot be told from, job-wide parts first. */
  static Map<Integer, List<Effect>> of(JointFit fit) {
    Confounding confounding = new Confounding(fit);
    Map<Integer, List<Effect>> found = new LinkedHashMap<>();
    for (int z = 0; z < fit.frame.zeros.size(); z++) {
      List<Effect> rivals = confounding.rivals(z);
      if (!rivals.isEmpty()) {
        found.put(z, rivals);
      }
    }
    return found;
  }

  private List<Effect> rivals(int zero) {
    int[] fibres = frame.fibresOfZero[zero];
    List<Effect> found = new ArrayList<>();
    if (fibres.length == 0) {
      return found;
    }
    double[] pe = precisionTimesRead(zero);
    int[] own = frame.levelsOfZero[zero];
    double information = 0;
    for (int i = 0; i < own.length; i++) {
      information += readShare(own[i]) * pe[i];
      for (int j = 0; j < own.length; j++) {
        information -= pe[i] * fit.covariance(own[i], own[j]) * pe[j];
      }
    }
    information = Math.max(information, LEAST_INFORMATION);
    TreeSet<Integer> families = new TreeSet<>();
    TreeSet<Integer> places = new TreeSet<>();
    for (int i : fibres) {
      families.add(frame.family[i]);
      places.add(frame.placeA[i]);
      places.add(frame.placeB[i]);
    }
    for (int family : families) {
      if (isConfounded(own, pe, information, fit.connectionsAt(family)) && found.isEmpty()) {
        found.add(new Effect.Usual());
      }
    }
    if (isConfounded(own, pe, information, fit.biasAt())) {
      found.add(new Effect.Bias());
    }
    for (int family : families) {
      for (boolean splices : new boolean[] {false, true}) {
        if (isConfounded(own, pe, information, fit.insideAt(family, splices))) {
          found.add(new Effect.CostlyInside(family, splices));
        }
      }
    }
    for (int place : places) {
      if (place >= 0 && isConfounded(own, pe, information, fit.placeAt(place))) {
        found.add(new Effect.HighPlace(place));
      }
    }
    return found;
  }

  /** 1 for a level with readings, 0 for one without. */
  private int readShare(int level) {
    return read[level] ? 1 : 0;
  }

  private double[] precisionTimesRead(int zero) {
    int[] own = frame.levelsOfZero[zero];
    double[] prior = fit.priorOf(zero);
    double[] pe = new double[own.length];
    for (int i = 0; i < own.length; i++) {
      for (int j = 0; j < own.length; j++) {
        pe[i] += prior[i * own.length + j] * readShare(own[j]);
      }
    }
    return pe;
  }

  private boolean isConfounded(int[] own, double[] pe, double information, int part) {
    double p = fit.precisionAt(part);
    double c = fit.varianceOfPart(part);
    double with = 0;
    for (int i = 0; i < own.length; i++) {
      with -= pe[i] * fit.covarianceWithPart(own[i], part);
    }
    double ofPart = Math.max(p - p * c * p, LEAST_INFORMATION);
    double left = Math.max(information - p * p * with * with / ofPart, LEAST_INFORMATION);
    double free = 1 / left;
    double known = c / (c + with * with / information) / information;
    return free > TELLING_DB * TELLING_DB && known < free / 2;
  }
}
