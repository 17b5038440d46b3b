package ferrule.core.isolation;

import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.SingularOps_DDRM;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.SingularValueDecomposition_F64;

/**
 * Weighted least squares for readings that are sums of unknowns, whether or not they tell every
 * unknown.
 *
 * <p>With the design {@code A} (a 1 where an end is mated in a reading) and the weights {@code W =
 * diag(1/sd^2)}: the singular values of {@code A} give the rank, its right singular vectors the
 * space that readings cannot see; {@code C = (A' W A)^+} by the singular values of {@code W^1/2 A},
 * and {@code x = C A' W y}. A sum {@code c'x} can be told if and only if {@code c} is orthogonal to
 * the unseen space; then its estimate and its variance {@code c'C c} do not hang on which inverse
 * was taken (Gauss-Markov; Searle, Linear Models, on estimable functions: from memory).
 */
final class LeastSquares {

  /** Entries of the design are 0 and 1: what is not 0 is far from it. */
  static final double TINY = 1e-9;

  private final List<int[]> rows;
  private final double[] sd;
  private final int rank;
  private final double[][] unseen;
  private final double[][] covariance;
  private final double[] solution;
  private final double[] residuals;

  /**
   * @param rows of each reading the unknowns that add up to it
   * @param values readings
   * @param sd standard deviation of each
   * @param unknowns how many there are
   */
  LeastSquares(List<int[]> rows, double[] values, double[] sd, int unknowns) {
    this.rows = rows;
    this.sd = sd;
    DMatrixRMaj plain = new DMatrixRMaj(rows.size(), unknowns);
    DMatrixRMaj weighted = new DMatrixRMaj(rows.size(), unknowns);
    for (int i = 0; i < rows.size(); i++) {
      for (int end : rows.get(i)) {
        plain.set(i, end, 1);
        weighted.set(i, end, 1 / sd[i]);
      }
    }
    Decomposed shape = Decomposed.of(plain);
    this.rank = shape.rank();
    this.unseen = new double[unknowns][unknowns];
    for (int i = 0; i < unknowns; i++) {
      for (int j = 0; j < unknowns; j++) {
        double seen = 0;
        for (int k = 0; k < rank; k++) {
          seen += shape.right.get(i, k) * shape.right.get(j, k);
        }
        unseen[i][j] = (i == j ? 1 : 0) - seen;
      }
    }
    Decomposed inverse = Decomposed.of(weighted);
    this.covariance = new double[unknowns][unknowns];
    for (int i = 0; i < unknowns; i++) {
      for (int j = 0; j < unknowns; j++) {
        for (int k = 0; k < rank; k++) {
          covariance[i][j] +=
              inverse.right.get(i, k)
                  * inverse.right.get(j, k)
                  / (inverse.singular[k] * inverse.singular[k]);
        }
      }
    }
    double[] right = new double[unknowns];
    for (int i = 0; i < rows.size(); i++) {
      for (int end : rows.get(i)) {
        right[end] += values[i] / (sd[i] * sd[i]);
      }
    }
    this.solution = times(covariance, right);
    this.residuals = new double[rows.size()];
    for (int i = 0; i < rows.size(); i++) {
      double sum = 0;
      for (int end : rows.get(i)) {
        sum += solution[end];
      }
      residuals[i] = values[i] - sum;
    }
  }

  /** Right singular vectors, largest singular value first. */
  private static final class Decomposed {
    private final double[] singular;
    private final DMatrixRMaj right;

    private Decomposed(double[] singular, DMatrixRMaj right) {
      this.singular = singular;
      this.right = right;
    }

    static Decomposed of(DMatrixRMaj matrix) {
      SingularValueDecomposition_F64<DMatrixRMaj> svd =
          DecompositionFactory_DDRM.svd(matrix.numRows, matrix.numCols, true, true, true);
      if (!svd.decompose(matrix.copy())) {
        throw new IllegalStateException("No singular values of " + matrix);
      }
      DMatrixRMaj u = svd.getU(null, false);
      DMatrixRMaj v = svd.getV(null, false);
      double[] singular = svd.getSingularValues();
      SingularOps_DDRM.descendingOrder(u, false, singular, svd.numberOfSingularValues(), v, false);
      return new Decomposed(singular, v);
    }

    int rank() {
      int count = 0;
      for (double value : singular) {
        count += value > TINY * singular[0] ? 1 : 0;
      }
      return count;
    }
  }

  /** How many independent sums the readings tell. */
  int rank() {
    return rank;
  }

  /** Readings beyond what is needed for the sums that they tell. */
  int degrees() {
    return rows.size() - rank;
  }

  /** {@code sum (residual / sd)^2}. */
  double chiSquare() {
    double sum = 0;
    for (int i = 0; i < residuals.length; i++) {
      sum += residuals[i] * residuals[i] / (sd[i] * sd[i]);
    }
    return sum;
  }

  /**
   * The projector {@code Q} onto what the readings cannot see. An end can be told if {@code Q_ii}
   * is 0; the difference of two if their rows of {@code Q} are alike, their sum if they are
   * opposite.
   */
  double[][] unseen() {
    return unseen;
  }

  /** {@code C}, for standard deviations as given. */
  double[][] covariance() {
    return covariance;
  }

  /** Whether a sum with these factors can be told. */
  boolean tells(double[] factors) {
    return bilinear(unseen, factors, factors) < TINY;
  }

  /** Estimate of a sum that can be told. */
  double value(double[] factors) {
    double sum = 0;
    for (int i = 0; i < factors.length; i++) {
      sum += factors[i] * solution[i];
    }
    return sum;
  }

  /** Variance of a sum that can be told, for standard deviations as given. */
  double variance(double[] factors) {
    return Math.max(0, bilinear(covariance, factors, factors));
  }

  /**
   * What one further unknown, added to the marked readings only, would be.
   *
   * @param marked one flag a reading
   * @return estimate, and its variance for standard deviations as given; infinite if the readings
   *     cannot show it
   */
  double[] extra(boolean[] marked) {
    double[] shared = new double[solution.length];
    double weight = 0;
    double pull = 0;
    for (int i = 0; i < marked.length; i++) {
      if (marked[i]) {
        double w = 1 / (sd[i] * sd[i]);
        weight += w;
        pull += w * residuals[i];
        for (int end : rows.get(i)) {
          shared[end] += w;
        }
      }
    }
    double free = weight - bilinear(covariance, shared, shared);
    return free < TINY * weight
        ? new double[] {0, Double.POSITIVE_INFINITY}
        : new double[] {pull / free, 1 / free};
  }

  static double[] times(double[][] matrix, double[] vector) {
    double[] product = new double[vector.length];
    for (int i = 0; i < vector.length; i++) {
      for (int j = 0; j < vector.length; j++) {
        product[i] += matrix[i][j] * vector[j];
      }
    }
    return product;
  }

  private static double bilinear(double[][] matrix, double[] left, double[] right) {
    double sum = 0;
    for (int i = 0; i < left.length; i++) {
      if (left[i] != 0) {
        for (int j = 0; j < right.length; j++) {
          sum += left[i] * matrix[i][j] * right[j];
        }
      }
    }
    return sum;
  }
}
