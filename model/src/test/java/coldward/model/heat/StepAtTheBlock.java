package coldward.model.heat;

import coldward.model.PublishedRows;
import coldward.model.PublishedRows.Row;
import coldward.model.build.HotEnd;
import java.util.Arrays;

/**
 * A filament at the air's temperature, its lower end suddenly at the block's, moving towards it. Ogata and Banks' (1961)
 * published values are for a stream away from the step; substituting {@code C = e^(v x/(2 D)) u} in both shows that one
 * is {@code e^(v x/D)} times the other, so the published number divided by that is the answer here.
 */
record StepAtTheBlock(Row row) implements ExactProblem {

    /** Length and time of the row's units: what they are does not matter to the dimensionless answer. */
    private static final double METRES = 3e-3;

    private static final double SECONDS = 60;
    private static final int STEPS = 1500;

    static StepAtTheBlock of(String id) {
        return new StepAtTheBlock(PublishedRows.row(PublishedRows.of("heat"), id));
    }

    @Override
    public String name() {
        return row.id();
    }

    @Override
    public double exact() {
        double x = row.input("x=#");
        return row.expected("\\]=#") * Math.exp(-row.input("v=#") * x / row.input("D=#"));
    }

    @Override
    public double computed(double refinement) {
        double diffusivity = row.input("D=#") * METRES * METRES / SECONDS;
        double velocity = row.input("v=#") * METRES / SECONDS;
        double x = row.input("x=#") * METRES;
        // the way asked for ends at the throat, where the filament is read; far beyond it nothing is felt
        HotEnd hotEnd = PlainBuilds.filament(diffusivity, velocity, x, 8 * METRES);
        Network net = new Network(hotEnd, PlainBuilds.uncoupled(), refinement);
        HeatSystem system = new HeatSystem(net);
        system.feed(hotEnd.feed());
        Stepper stepper = new Stepper(system);
        double[] y = new double[3 * net.n + 1];
        Arrays.fill(y, net.air);
        y[3 * net.n] = net.air + 100;
        double[] next = y.clone();
        double seconds = row.input("t=#") * SECONDS;
        for (int i = 0; i < STEPS; i++) {
            stepper.step(y, next, seconds / STEPS, 1, 1, 0, false, false);
            double[] swap = y;
            y = next;
            next = swap;
        }
        return (new Profile(net).filamentAtThroat(y) - net.air) / 100;
    }
}
