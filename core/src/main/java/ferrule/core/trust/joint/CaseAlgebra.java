package ferrule.core.trust.joint;

import java.util.Arrays;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * What the readings of one fibre in a given set of cases say together.
 *
 * <p>With covariance {@code V} and pattern {@code a}, the direction in which honest fibres differ
 * most (the leading eigenvector of {@code V}, near the pattern of lateral offset where connections
 * lose by it), the part of the fibre is estimated by {@code q = b'r}, {@code b = V^-1 a/(a'V^-1
 * a)}; what is left, {@code r - a q}, has precision {@code K = V^-1 - V^-1 a a'V^-1/(a'V^-1 a)}.
 * The score of a shift is then {@code w K r + b psi(q) A/B} with the skewed law's score {@code
 * psi}, its mean slope {@code A} and power {@code B}; its information is {@code J = K + (A^2/B) b
 * b'}.
 *
 * <p>Fibres read together in one link share a part of covariance {@code S}; for {@code m} of them
 * both score and information are multiplied from the left by {@code (I + m J S)^-1}, which makes
 * their sum the score of their common mean.
 */
final class CaseAlgebra {

  /** Beyond this length in its own metric the rest of a fibre's readings is drawn in. */
  private static final double REST_LIMIT = 3;

  final double[] pattern;
  private final double[] weights;
  private final double[] rest;
  private final int d;
  private final double[][] common;
  private final int together;
  private double[] information;
  private double[] damping;
  private SkewLaw law;

  /**
   * @param pattern expected pattern of each case
   * @param covariance of the family's cases in this set, positive definite
   * @param common covariance that the fibres of one link share
   * @param together how many of them
   */
  CaseAlgebra(
      double[] pattern, double[][] covariance, double[][] common, int together, SkewLaw law) {
    this.d = pattern.length;
    DMatrixRMaj v = new DMatrixRMaj(covariance);
    this.pattern = leading(v, pattern);
    DMatrixRMaj inverse = new DMatrixRMaj(d, d);
    if (!CommonOps_DDRM.invert(v, inverse)) {
      throw new IllegalStateException("A covariance with a floor cannot be singular");
    }
    double[] va = new double[d];
    double ava = 0;
    for (int i = 0; i < d; i++) {
      for (int j = 0; j < d; j++) {
        va[i] += inverse.get(i, j) * this.pattern[j];
      }
      ava += va[i] * this.pattern[i];
    }
    this.weights = new double[d];
    this.rest = new double[d * d];
    for (int i = 0; i < d; i++) {
      weights[i] = va[i] / ava;
      for (int j = 0; j < d; j++) {
        rest[i * d + j] = inverse.get(i, j) - va[i] * va[j] / ava;
      }
    }
    this.common = common;
    this.together = together;
    this.law = law;
    this.damping = new double[d * d];
    this.information = new double[d * d];
    take(law);
  }

  /** The leading eigenvector, scaled to be as long as the expected pattern in its direction. */
  static double[] leading(DMatrixRMaj v, double[] expected) {
    int d = expected.length;
    EigenDecomposition_F64<DMatrixRMaj> eigen = DecompositionFactory_DDRM.eig(d, true, true);
    double[] best = expected;
    double largest = 0;
    if (eigen.decompose(v.copy())) {
      for (int e = 0; e < d; e++) {
        DMatrixRMaj vector = eigen.getEigenVector(e);
        if (vector != null && eigen.getEigenvalue(e).getReal() > largest) {
          largest = eigen.getEigenvalue(e).getReal();
          best = vector.data;
        }
      }
    }
    double along = 0;
    double length = 0;
    for (int i = 0; i < d; i++) {
      along += best[i] * expected[i];
      length += expected[i] * expected[i];
    }
    // Readings that do not move together have no common part to speak of: keep to the expected one.
    if (along * along < 0.5 * length) {
      return expected.clone();
    }
    double[] scaled = new double[d];
    for (int i = 0; i < d; i++) {
      scaled[i] = best[i] * length / along;
    }
    return scaled;
  }

  /** Takes another law for the fibre's part. */
  final void take(SkewLaw other) {
    this.law = other;
    DMatrixRMaj j = new DMatrixRMaj(d, d);
    for (int i = 0; i < d; i++) {
      for (int k = 0; k < d; k++) {
        j.set(i, k, rest[i * d + k] + law.information() * weights[i] * weights[k]);
      }
    }
    if (together < 2) {
      damping = CommonOps_DDRM.identity(d).data;
      information = j.data;
      return;
    }
    DMatrixRMaj damped = new DMatrixRMaj(d, d);
    CommonOps_DDRM.mult(together, j, new DMatrixRMaj(common), damped);
    for (int i = 0; i < d; i++) {
      damped.add(i, i, 1);
    }
    DMatrixRMaj inverse = new DMatrixRMaj(d, d);
    if (!CommonOps_DDRM.invert(damped, inverse)) {
      throw new IllegalStateException("A product of two covariances plus one cannot be singular");
    }
    DMatrixRMaj result = new DMatrixRMaj(d, d);
    CommonOps_DDRM.mult(inverse, j, result);
    damping = inverse.data;
    information = result.data;
  }

  int size() {
    return d;
  }

  /** Information of one fibre, row by row, 1/dB², for a fibre of scale 1. */
  double[] information() {
    return information;
  }

  /** The fibre's part in its residuals, dB. */
  double part(double[] residual) {
    double q = 0;
    for (int i = 0; i < d; i++) {
      q += weights[i] * residual[i];
    }
    return q;
  }

  /** The fibre's part as a shift would show in it: bounded for bad links, dB over scale. */
  double boundedPart(double[] residual) {
    return law.score(part(residual)) / law.slope();
  }

  /**
   * Score of a shift of each case.
   *
   * @param residual dB over scale
   * @param out takes the score, 1/dB
   */
  void score(double[] residual, double[] out) {
    double q = part(residual);
    double length = 0;
    for (int i = 0; i < d; i++) {
      double sum = 0;
      for (int j = 0; j < d; j++) {
        sum += rest[i * d + j] * residual[j];
      }
      out[i] = sum;
      length += sum * residual[i];
    }
    double limit = REST_LIMIT * REST_LIMIT;
    double w = length > limit ? Math.sqrt(limit / length) : 1;
    double own = law.score(q) * law.slope() / law.power();
    for (int i = 0; i < d; i++) {
      out[i] = w * out[i] + weights[i] * own;
    }
    if (together > 1) {
      double[] alone = Arrays.copyOf(out, d);
      for (int i = 0; i < d; i++) {
        double sum = 0;
        for (int j = 0; j < d; j++) {
          sum += damping[i * d + j] * alone[j];
        }
        out[i] = sum;
      }
    }
  }
}
