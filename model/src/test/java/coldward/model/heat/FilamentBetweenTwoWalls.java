package coldward.model.heat;

import coldward.model.build.HotEnd;
import coldward.model.build.HotSide;
import coldward.model.build.Material;
import coldward.model.build.Shank;

/**
 * A filament that moves towards the block, first along a wall at the air's temperature, then along one at the block's:
 * {@code k A T'' + rho c A v T' + g (T_wall - T) = 0} in each, matched in temperature and gradient where the walls meet;
 * solutions of the characteristic equation {@code a r^2 + v r - g/(rho c A) = 0}. Derived for this test.
 */
record FilamentBetweenTwoWalls(double feed) implements ExactProblem {

    private static final double HOT_LENGTH = 4e-3;
    private static final double SHANK = 2e-3;
    private static final double K = 0.18;
    private static final double HEAT = 1240.0 * 1300;

    @Override
    public String name() {
        return "filament between two walls, feed %.0f mm3/s, K below the block".formatted(feed * 1e9);
    }

    private static HotEnd hotEnd(double feed) {
        // a wall that conducts so well, between a perfect seat in the block and a core that insulates it from the sink,
        // that it is as hot as the block throughout
        Material isothermal = new Material("isothermal", 1e9, 1, 1);
        return PlainBuilds.hotEnd(
                PlainBuilds.plastic(K, 1240, 1300),
                feed,
                new HotSide(50, 12, 0.06, 0.18, 0),
                PlainBuilds.neck(isothermal, HOT_LENGTH - SHANK, 3e-3),
                new Shank(isothermal, 6e-3, SHANK, 1e9),
                PlainBuilds.sink(30e-3, 1e-9));
    }

    @Override
    public double exact() {
        double area = Math.PI / 4 * 1.75e-3 * 1.75e-3;
        double v = feed / area;
        double a = K / HEAT;
        // the coupling is an input of this problem, not what it tests
        double exchange = Network.wallFilamentPerMetre(hotEnd(feed)) / (HEAT * area);
        double root = Math.sqrt(v * v + 4 * a * exchange);
        double up = (-v + root) / (2 * a);
        double down = (-v - root) / (2 * a);
        double e1 = Math.exp(up * HOT_LENGTH);
        double e2 = Math.exp(down * HOT_LENGTH);
        // below: Tb - c (e^(up x) - e^(down x)); above: Ta + d e^(down (x - L))
        double span = PlainBuilds.BLOCK - PlainBuilds.AIR;
        double c = span * down / (down * (e1 - e2) - (up * e1 - down * e2));
        double x = HOT_LENGTH - SHANK;
        return c * (Math.exp(up * x) - Math.exp(down * x));
    }

    @Override
    public double computed(double refinement) {
        HotEnd hotEnd = hotEnd(feed);
        Network net = new Network(hotEnd, Factors.NONE, refinement);
        HeatSystem system = new HeatSystem(net);
        system.feed(feed);
        return PlainBuilds.BLOCK - new Profile(net).filamentAtThroat(Stepper.steady(system, 1));
    }
}
