package coldward.model.heat;

import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Shank;

/**
 * A neck that conducts and a shank that is a fin with insulated tip in an isothermal sink (Incropera et al., Table 3.4
 * case B), behind the threads in the block as an infinite fin (case D):
 * {@code q = (Tb - Ta)/(1/sqrt(g_b k A) + Ln/(k An) + 1/(sqrt(g k A) tanh(m Lsh)))}.
 */
record TwoPartFin(boolean throat) implements ExactProblem {

    private static final double K = 16.6;
    private static final double NECK = 2.1e-3;
    private static final double SHANK = 8e-3;
    private static final double BORE = 2e-3;
    private static final double NECK_DIAMETER = 3e-3;
    private static final double SHANK_DIAMETER = 6e-3;
    private static final double CORE_DIAMETER = 9e-3;
    private static final double CORE_CONDUCTIVITY = 1e6;
    private static final double CONTACT = 5000;

    @Override
    public String name() {
        return throat ? "two-part fin, throat above the air, K" : "two-part fin, heat, W";
    }

    @Override
    public double exact() {
        double shankArea = Math.PI / 4 * (SHANK_DIAMETER * SHANK_DIAMETER - BORE * BORE);
        double neckArea = Math.PI / 4 * (NECK_DIAMETER * NECK_DIAMETER - BORE * BORE);
        double seat = 1 / (CONTACT * Math.PI * SHANK_DIAMETER)
                + Math.log(2 * SHANK_DIAMETER / (SHANK_DIAMETER + BORE)) / (2 * Math.PI * K);
        double core =
                Math.log((CORE_DIAMETER + SHANK_DIAMETER) / (2 * SHANK_DIAMETER)) / (2 * Math.PI * CORE_CONDUCTIVITY);
        double toBlock = 1 / seat;
        double toSink = 1 / (seat + core);
        double threads = 1 / Math.sqrt(toBlock * K * shankArea);
        double along = NECK / (K * neckArea);
        double m = Math.sqrt(toSink / (K * shankArea));
        double fin = 1 / (Math.sqrt(toSink * K * shankArea) * Math.tanh(m * SHANK));
        double heat = (PlainBuilds.BLOCK - PlainBuilds.AIR) / (threads + along + fin);
        return throat ? heat * fin : heat;
    }

    @Override
    public double computed(double refinement) {
        Material steel = new Material("steel", K, 8000, 500);
        HotEnd hotEnd = PlainBuilds.hotEnd(
                PlainBuilds.plastic(0.18, 1240, 1300),
                0,
                new HotSide(50, 12, 0.06, 0.18, 0),
                PlainBuilds.neck(steel, NECK, NECK_DIAMETER),
                new Shank(steel, SHANK_DIAMETER, SHANK, CONTACT),
                PlainBuilds.sink(24e-3));
        Network net = new Network(hotEnd, PlainBuilds.uncoupled(), refinement);
        HeatSystem system = new HeatSystem(net);
        double[] y = Stepper.steady(system, 1);
        return throat ? new Profile(net).throat(y) - PlainBuilds.AIR : system.intoWall(y);
    }
}
