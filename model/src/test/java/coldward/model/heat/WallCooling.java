package coldward.model.heat;

import coldward.model.build.HotEnd;
import java.util.Arrays;

/** A plane wall that starts at one temperature and meets a fluid of another through the block's threads. */
final class WallCooling {

    private final Network net;
    private final Stepper stepper;
    private final HeatSystem system;
    private final double initial;
    private final double area;
    private double[] y;

    WallCooling(HotEnd hotEnd, double refinement, double initial, double fluid) {
        this.net = new Network(hotEnd, PlainBuilds.uncoupled(), refinement);
        this.system = new HeatSystem(net);
        this.stepper = new Stepper(system);
        this.initial = initial;
        double outer = hotEnd.neck().segments().getFirst().diameter();
        double bore = hotEnd.neck().bore();
        this.area = Math.PI / 4 * (outer * outer - bore * bore);
        this.y = new double[3 * net.n + 1];
        Arrays.fill(y, net.air);
        Arrays.fill(y, 0, net.n, initial);
        y[3 * net.n] = fluid;
    }

    void run(double seconds, int steps) {
        double[] next = new double[y.length];
        for (int i = 0; i < steps; i++) {
            stepper.step(y, next, seconds / steps, 1, 1, 0, false, false);
            double[] swap = y;
            y = next;
            next = swap;
        }
    }

    /** The wall's insulated side, K. */
    double insulatedSide() {
        return y[net.grid.shankEnd - 1];
    }

    /** The wall's side towards the fluid, K: what the flux leaves of the first half cell. */
    double heatedSide() {
        double halfCell = 0.5
                * net.grid.size[0]
                / (net.hotEnd.neck().segments().getFirst().material().conductivity() * area);
        return y[0] + system.intoWall(y) * halfCell;
    }

    /** Heat from the fluid, W/m2. */
    double flux() {
        return system.intoWall(y) / area;
    }

    /** Heat taken since the beginning, J/m2. */
    double heatTaken() {
        double sum = 0;
        for (int j = 0; j < net.grid.shankEnd; j++) {
            sum += net.wallCapacity[j] * (y[j] - initial);
        }
        return sum / area;
    }
}
