package coldward.model.heat;

/** What a state of the network means: temperatures at named places and how far the filament is soft. */
final class Profile {

    private final Network net;
    private final int n;
    private final double throat;

    Profile(Network net) {
        this.net = net;
        this.n = net.n;
        this.throat = net.hotEnd.neck().length();
    }

    /** Inner wall where the cold side begins, K. */
    double throat(double[] y) {
        int a = net.grid.neck;
        return (net.throatBelow * y[a - 1] + net.throatAbove * y[a]) / (net.throatBelow + net.throatAbove);
    }

    /** Filament at a height, m from the block's face, K; linear between cell centres. */
    double filament(double[] y, double x) {
        int j = net.grid.neck;
        while (j < n - 1 && net.grid.centre[j] < x) {
            j++;
        }
        double x0 = net.grid.centre[j - 1];
        double x1 = net.grid.centre[j];
        double share = Math.clamp((x - x0) / (x1 - x0), 0, 1);
        return y[2 * n + j - 1] * (1 - share) + y[2 * n + j] * share;
    }

    /** Filament where the cold side begins, K. */
    double filamentAtThroat(double[] y) {
        return filament(y, throat);
    }

    /** Height above the throat up to which the filament is at or above softening without a break, m. */
    double softenedDepth(double[] y) {
        double below = filamentAtThroat(y);
        double at = throat;
        if (below < net.softens) {
            return 0;
        }
        for (int j = net.grid.neck; j < n; j++) {
            double t = y[2 * n + j];
            double x = net.grid.centre[j];
            if (t < net.softens) {
                return at + (x - at) * (below - net.softens) / (below - t) - throat;
            }
            below = t;
            at = x;
        }
        return net.hotEnd.sink().length();
    }

    /**
     * How far the softened depth is from its limit, in kelvin: the coldest filament between throat and limit, minus the
     * softening temperature. Above 0 exactly where the depth is above the limit.
     */
    double excess(double[] y) {
        double coldest = Math.min(filamentAtThroat(y), filament(y, throat + net.limit));
        for (int j = net.grid.neck; j < n && net.grid.centre[j] < throat + net.limit; j++) {
            coldest = Math.min(coldest, y[2 * n + j]);
        }
        return coldest - net.softens;
    }

    /** The hottest part of all, block included, K. */
    double hottest(double[] y) {
        double hottest = y[3 * n];
        for (int j = 0; j < n; j++) {
            hottest = Math.max(hottest, Math.max(Math.max(y[j], y[n + j]), y[2 * n + j]));
        }
        return hottest;
    }
}
