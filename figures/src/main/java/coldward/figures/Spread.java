package coldward.figures;

/** Moves things along a line just so far that they do not touch. */
final class Spread {

    private Spread() {}

    /**
     * Centres as near as possible (least squares) to the wanted ones, in the given order, not touching, within bounds.
     * With y_i = x_i - (sizes and gaps before i) the task is an isotonic regression, solved by pooling neighbours.
     *
     * @param wanted centres, in the order to keep
     * @param sizes extents
     * @param gap least distance between two
     * @param low where the first may begin
     * @param high where the last may end; if all together are longer, they begin at {@code low} and run over
     */
    static double[] along(double[] wanted, double[] sizes, double gap, double low, double high) {
        int n = wanted.length;
        double[] before = new double[n];
        double run = 0;
        for (int i = 0; i < n; i++) {
            before[i] = run + sizes[i] / 2;
            run += sizes[i] + gap;
        }
        double last = Math.max(low, high - (run - gap));
        double[] sum = new double[n];
        int[] count = new int[n];
        int blocks = 0;
        for (int i = 0; i < n; i++) {
            sum[blocks] = wanted[i] - before[i];
            count[blocks] = 1;
            while (blocks > 0 && sum[blocks - 1] / count[blocks - 1] > sum[blocks] / count[blocks]) {
                sum[blocks - 1] += sum[blocks];
                count[blocks - 1] += count[blocks];
                blocks--;
            }
            blocks++;
        }
        double[] centres = new double[n];
        int i = 0;
        for (int block = 0; block < blocks; block++) {
            double start = Math.clamp(sum[block] / count[block], low, last);
            for (int k = 0; k < count[block]; k++, i++) {
                centres[i] = start + before[i];
            }
        }
        return centres;
    }
}
