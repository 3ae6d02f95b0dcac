package coldward.model.heat;

/**
 * The network's equations at one feed, and their linear solver. The state is one array: wall 0..n-1, sink n..2n-1,
 * filament 2n..3n-1, block 3n, all K. {@link #flows} gives the net heat into each, W. {@link #prepare} factorises
 * {@code alpha C + K} with K the conductances linearised at a state: block-tridiagonal with 3 x 3 blocks and diagonal
 * neighbours, bordered by the block and by the sink's mean temperature, on which the still-air conductance depends.
 * One instance belongs to one thread; arrays are reused.
 */
final class HeatSystem {

    private static final double SLOPE_STEP = 0.5;

    final Network net;
    private final int n;
    private final double[] outBelow;
    private final double[] inBelow;
    private double carried;

    // the factorisation
    private final double[] inverse;
    private final double[] lower;
    private final double[] upper;
    private final double[] work;
    private final double[] byBlock;
    private final double[] bySink;
    private double meanByBlock;
    private double meanBySink;
    private double alpha;
    private boolean floating;
    private double loss;
    private double sinkLoss;

    HeatSystem(Network net) {
        this.net = net;
        this.n = net.n;
        outBelow = new double[n];
        inBelow = new double[n];
        inverse = new double[9 * n];
        lower = new double[3 * n];
        upper = new double[3 * n];
        work = new double[3 * n];
        byBlock = new double[3 * n];
        bySink = new double[3 * n];
        feed(0);
    }

    /** Sets the feed, m3/s. */
    void feed(double feed) {
        carried = net.carried(feed);
        for (int j = 0; j < n; j++) {
            double d = net.filamentDiffusion[j];
            double peclet = carried / d;
            inBelow[j] = d * Network.bernoulli(peclet);
            outBelow[j] = inBelow[j] + carried;
        }
    }

    /** Heat carried per kelvin by the filament at the present feed, W/K. */
    double carried() {
        return carried;
    }

    /** Mean sink temperature, K. */
    double sinkMean(double[] y) {
        double mean = 0;
        for (int j = net.grid.neck; j < n; j++) {
            mean += net.sinkShare[j] * y[n + j];
        }
        return mean;
    }

    /** Conductance from block to filament, W/K, conduction and carried heat together. */
    double blockToFilament() {
        return outBelow[0];
    }

    /** Heat from the block into the inner wall, W. */
    double intoWall(double[] y) {
        return net.blockToWall * (y[3 * n] - y[0]);
    }

    /** Heat that the block must be given to stay as it is, W, apart from what the melt takes beyond the solid. */
    double blockDemand(double[] y, boolean blown) {
        double block = y[3 * n];
        return net.blockToWall * (block - y[0])
                + outBelow[0] * (block - y[2 * n])
                + net.blockToSink * (block - sinkMean(y))
                + (blown ? net.blockLossBlown : net.blockLoss) * (block - net.air);
    }

    /**
     * Net heat into every part, W.
     *
     * @param y state
     * @param speed relative fan speed
     * @param power heater power, W; used for the block only
     * @param blown part-cooling air on the block
     * @param out receives 3n+1 flows
     */
    void flows(double[] y, double speed, double power, boolean blown, double[] out) {
        java.util.Arrays.fill(out, 0);
        double block = y[3 * n];
        double mean = sinkMean(y);
        double ua = net.sinkAir.conductance(speed, mean);
        double beside = net.blockToSink * (block - mean);
        int neck = net.grid.neck;
        int shankEnd = net.grid.shankEnd;
        out[0] += intoWall(y);
        // filament at the block's face: what the exponential scheme lets pass each way
        out[2 * n] += inBelow[0] * block - outBelow[0] * y[2 * n];
        for (int j = 0; j < n; j++) {
            boolean hasWall = j < shankEnd;
            if (hasWall) {
                double toFilament = net.wallToFilament[j] * (y[j] - y[2 * n + j]);
                out[j] -= toFilament;
                out[2 * n + j] += toFilament;
            }
            if (j >= neck) {
                int s = n + j;
                out[s] += net.sinkShare[j] * (beside - ua * (y[s] - net.air));
                if (hasWall) {
                    double toSink = net.wallToSink[j] * (y[j] - y[s]);
                    out[j] -= toSink;
                    out[s] += toSink;
                } else {
                    double toFilament = net.wallToFilament[j] * (y[s] - y[2 * n + j]);
                    out[s] -= toFilament;
                    out[2 * n + j] += toFilament;
                }
            }
            if (j + 1 < n) {
                double wall = net.wallLink[j] * (y[j] - y[j + 1]);
                out[j] -= wall;
                out[j + 1] += wall;
                double sink = net.sinkLink[j] * (y[n + j] - y[n + j + 1]);
                out[n + j] -= sink;
                out[n + j + 1] += sink;
                double down = outBelow[j + 1] * y[2 * n + j + 1] - inBelow[j + 1] * y[2 * n + j];
                out[2 * n + j] += down;
                out[2 * n + j + 1] -= down;
            }
        }
        out[3 * n - 1] += carried * net.air;
        out[3 * n] = power - blockDemand(y, blown);
    }

    /**
     * Factorises {@code alpha C + K} at a state.
     *
     * @param alpha 1/s; 0 for the steady state
     * @param floating whether the block's temperature is an unknown or held
     */
    void prepare(double[] y, double speed, double alpha, boolean floating, boolean blown) {
        this.alpha = alpha;
        this.floating = floating;
        this.loss = blown ? net.blockLossBlown : net.blockLoss;
        double mean = sinkMean(y);
        double ua = net.sinkAir.conductance(speed, mean);
        double slope = (net.sinkAir.conductance(speed, mean + SLOPE_STEP) - ua) / SLOPE_STEP;
        sinkLoss = ua + slope * (mean - net.air);
        factorise(ua);
        java.util.Arrays.fill(byBlock, 0);
        java.util.Arrays.fill(bySink, 0);
        byBlock[0] = net.blockToWall;
        byBlock[2] = inBelow[0];
        for (int j = net.grid.neck; j < n; j++) {
            byBlock[3 * j + 1] = net.blockToSink * net.sinkShare[j];
            bySink[3 * j + 1] = (net.blockToSink + slope * (y[n + j] - net.air)) * net.sinkShare[j];
        }
        sweep(byBlock);
        sweep(bySink);
        meanByBlock = meanOf(byBlock);
        meanBySink = meanOf(bySink);
    }

    private double meanOf(double[] cells) {
        double mean = 0;
        for (int j = net.grid.neck; j < n; j++) {
            mean += net.sinkShare[j] * cells[3 * j + 1];
        }
        return mean;
    }

    private void factorise(double ua) {
        int neck = net.grid.neck;
        int shankEnd = net.grid.shankEnd;
        for (int j = 0; j < n; j++) {
            boolean hasWall = j < shankEnd;
            boolean hasSink = j >= neck;
            double a00 = 1;
            double a11 = 1;
            double a01 = 0;
            double a02 = 0;
            double a12 = 0;
            double filament = alpha * net.filamentCapacity[j] + outBelow[j] + net.wallToFilament[j];
            if (j + 1 < n) {
                filament += inBelow[j + 1];
            }
            if (hasWall) {
                a00 = alpha * net.wallCapacity[j]
                        + (j == 0 ? net.blockToWall : net.wallLink[j - 1])
                        + net.wallLink[j]
                        + net.wallToFilament[j]
                        + net.wallToSink[j];
                a02 = -net.wallToFilament[j];
                a01 = -net.wallToSink[j];
            }
            if (hasSink) {
                a11 = alpha * net.sinkCapacity[j]
                        + (j == 0 ? 0 : net.sinkLink[j - 1])
                        + net.sinkLink[j]
                        + net.wallToSink[j]
                        + ua * net.sinkShare[j];
                if (!hasWall) {
                    a11 += net.wallToFilament[j];
                    a12 = -net.wallToFilament[j];
                }
            }
            int at = 3 * j;
            lower[at] = j == 0 ? 0 : -net.wallLink[j - 1];
            lower[at + 1] = j == 0 ? 0 : -net.sinkLink[j - 1];
            lower[at + 2] = j == 0 ? 0 : -inBelow[j];
            upper[at] = -net.wallLink[j];
            upper[at + 1] = -net.sinkLink[j];
            upper[at + 2] = j + 1 < n ? -outBelow[j + 1] : 0;
            invert(j, a00, a01, a02, a11, a12, filament);
        }
    }

    /** Inverts the pivot block of cell j after elimination of cell j-1. */
    private void invert(int j, double a00, double a01, double a02, double a11, double a12, double a22) {
        double m00 = a00;
        double m01 = a01;
        double m02 = a02;
        double m10 = a01;
        double m11 = a11;
        double m12 = a12;
        double m20 = a02;
        double m21 = a12;
        double m22 = a22;
        if (j > 0) {
            int p = 9 * (j - 1);
            int l = 3 * j;
            int u = 3 * (j - 1);
            m00 -= lower[l] * inverse[p] * upper[u];
            m01 -= lower[l] * inverse[p + 1] * upper[u + 1];
            m02 -= lower[l] * inverse[p + 2] * upper[u + 2];
            m10 -= lower[l + 1] * inverse[p + 3] * upper[u];
            m11 -= lower[l + 1] * inverse[p + 4] * upper[u + 1];
            m12 -= lower[l + 1] * inverse[p + 5] * upper[u + 2];
            m20 -= lower[l + 2] * inverse[p + 6] * upper[u];
            m21 -= lower[l + 2] * inverse[p + 7] * upper[u + 1];
            m22 -= lower[l + 2] * inverse[p + 8] * upper[u + 2];
        }
        double c00 = m11 * m22 - m12 * m21;
        double c01 = m12 * m20 - m10 * m22;
        double c02 = m10 * m21 - m11 * m20;
        double d = 1 / (m00 * c00 + m01 * c01 + m02 * c02);
        int i = 9 * j;
        inverse[i] = c00 * d;
        inverse[i + 1] = (m02 * m21 - m01 * m22) * d;
        inverse[i + 2] = (m01 * m12 - m02 * m11) * d;
        inverse[i + 3] = c01 * d;
        inverse[i + 4] = (m00 * m22 - m02 * m20) * d;
        inverse[i + 5] = (m02 * m10 - m00 * m12) * d;
        inverse[i + 6] = c02 * d;
        inverse[i + 7] = (m01 * m20 - m00 * m21) * d;
        inverse[i + 8] = (m00 * m11 - m01 * m10) * d;
    }

    /** Solves the block-tridiagonal part in place; cells interleaved wall, sink, filament. */
    private void sweep(double[] r) {
        double z0 = 0;
        double z1 = 0;
        double z2 = 0;
        for (int j = 0; j < n; j++) {
            int a = 3 * j;
            int i = 9 * j;
            double r0 = r[a] - lower[a] * z0;
            double r1 = r[a + 1] - lower[a + 1] * z1;
            double r2 = r[a + 2] - lower[a + 2] * z2;
            z0 = inverse[i] * r0 + inverse[i + 1] * r1 + inverse[i + 2] * r2;
            z1 = inverse[i + 3] * r0 + inverse[i + 4] * r1 + inverse[i + 5] * r2;
            z2 = inverse[i + 6] * r0 + inverse[i + 7] * r1 + inverse[i + 8] * r2;
            r[a] = z0;
            r[a + 1] = z1;
            r[a + 2] = z2;
        }
        for (int j = n - 2; j >= 0; j--) {
            int a = 3 * j;
            int i = 9 * j;
            double u0 = upper[a] * r[a + 3];
            double u1 = upper[a + 1] * r[a + 4];
            double u2 = upper[a + 2] * r[a + 5];
            r[a] -= inverse[i] * u0 + inverse[i + 1] * u1 + inverse[i + 2] * u2;
            r[a + 1] -= inverse[i + 3] * u0 + inverse[i + 4] * u1 + inverse[i + 5] * u2;
            r[a + 2] -= inverse[i + 6] * u0 + inverse[i + 7] * u1 + inverse[i + 8] * u2;
        }
    }

    /** Solves the prepared system for a right-hand side of 3n+1 flows; writes 3n+1 changes to {@code x}. */
    void solve(double[] rhs, double[] x) {
        for (int j = 0; j < n; j++) {
            work[3 * j] = rhs[j];
            work[3 * j + 1] = rhs[n + j];
            work[3 * j + 2] = rhs[2 * n + j];
        }
        sweep(work);
        double meanAlone = meanOf(work);
        double block = 0;
        double mean = meanAlone / (1 + meanBySink);
        if (floating) {
            // block row: (alpha Cb + sum of conductances) zb - Gw wall0 - Gf filament0 - Gbs mean = rhs
            double meanPerBlock = meanByBlock / (1 + meanBySink);
            double diagonal = alpha * net.blockCapacity + net.blockToWall + outBelow[0] + net.blockToSink + loss;
            double known = net.blockToWall * (work[0] - mean * bySink[0])
                    + outBelow[0] * (work[2] - mean * bySink[2])
                    + net.blockToSink * mean;
            double perBlock = net.blockToWall * (byBlock[0] - meanPerBlock * bySink[0])
                    + outBelow[0] * (byBlock[2] - meanPerBlock * bySink[2])
                    + net.blockToSink * meanPerBlock;
            block = (rhs[3 * n] + known) / (diagonal - perBlock);
            mean += meanPerBlock * block;
        }
        for (int j = 0; j < n; j++) {
            x[j] = work[3 * j] + block * byBlock[3 * j] - mean * bySink[3 * j];
            x[n + j] = work[3 * j + 1] + block * byBlock[3 * j + 1] - mean * bySink[3 * j + 1];
            x[2 * n + j] = work[3 * j + 2] + block * byBlock[3 * j + 2] - mean * bySink[3 * j + 2];
        }
        x[3 * n] = block;
    }

    /**
     * Heat that crosses the border of what is counted, W: the cells, and the block where it floats. It is written down
     * from the border's own terms, so that comparing it with the sum of all flows finds a leak inside.
     */
    double border(double[] y, double speed, double power, boolean floatingBlock, boolean blown) {
        double mean = sinkMean(y);
        double lost = net.sinkAir.conductance(speed, mean) * (mean - net.air) - carried * net.air;
        double block = y[3 * n];
        if (floatingBlock) {
            return power - (blown ? net.blockLossBlown : net.blockLoss) * (block - net.air) - carried * block - lost;
        }
        return intoWall(y) + inBelow[0] * block - outBelow[0] * y[2 * n] + net.blockToSink * (block - mean) - lost;
    }

    /** The change of {@link #border} for a change of the state, with the conductances as prepared, W. */
    double borderChange(double[] change) {
        double mean = sinkMean(change);
        if (floating) {
            return -(loss + carried) * change[3 * n] - sinkLoss * mean;
        }
        return -net.blockToWall * change[0] - outBelow[0] * change[2 * n] - (net.blockToSink + sinkLoss) * mean;
    }

    /** Capacity of every part, J/K; 1 where a part does not exist, so that its state stays as it is. */
    double[] capacities() {
        double[] c = new double[3 * n + 1];
        for (int j = 0; j < n; j++) {
            c[j] = j < net.grid.shankEnd ? net.wallCapacity[j] : 1;
            c[n + j] = j >= net.grid.neck ? net.sinkCapacity[j] : 1;
            c[2 * n + j] = net.filamentCapacity[j];
        }
        c[3 * n] = net.blockCapacity;
        return c;
    }
}
