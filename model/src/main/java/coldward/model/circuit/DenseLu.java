package coldward.model.circuit;

/** Gaussian elimination with partial pivoting of a small full matrix, in place. */
final class DenseLu {

    /** A pivot below this share of its column's largest first entry counts as none. */
    private static final double SINGULAR = 1e-18;

    private DenseLu() {}

    /**
     * Solves {@code a x = b}; {@code b} becomes {@code x} and {@code a} is spent.
     *
     * @return false if the matrix is singular or not finite; {@code b} is then worthless
     */
    static boolean solve(double[][] a, double[] b, int n) {
        for (int k = 0; k < n; k++) {
            int pivot = k;
            double largest = Math.abs(a[k][k]);
            for (int i = k + 1; i < n; i++) {
                double candidate = Math.abs(a[i][k]);
                if (candidate > largest) {
                    largest = candidate;
                    pivot = i;
                }
            }
            if (!(largest > SINGULAR) || Double.isInfinite(largest)) {
                return false;
            }
            double[] row = a[pivot];
            a[pivot] = a[k];
            a[k] = row;
            double swapped = b[pivot];
            b[pivot] = b[k];
            b[k] = swapped;
            for (int i = k + 1; i < n; i++) {
                double[] below = a[i];
                if (below[k] == 0) {
                    continue;
                }
                double factor = below[k] / row[k];
                for (int j = k + 1; j < n; j++) {
                    below[j] -= factor * row[j];
                }
                b[i] -= factor * b[k];
            }
        }
        for (int i = n - 1; i >= 0; i--) {
            double sum = b[i];
            double[] row = a[i];
            for (int j = i + 1; j < n; j++) {
                sum -= row[j] * b[j];
            }
            b[i] = sum / row[i];
        }
        return true;
    }
}
