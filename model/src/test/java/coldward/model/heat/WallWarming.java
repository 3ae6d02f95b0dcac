package coldward.model.heat;

import coldward.model.build.HotEnd;
import coldward.model.build.Material;

/**
 * Plane wall with convection on one side: the insulated side's excess after {@code Fo = 0.5}, as the sum of the series
 * {@code C_n exp(-zeta_n^2 Fo)}, {@code zeta tan zeta = Bi} (Incropera et al., Eq. 5.42).
 */
record WallWarming(double bi) implements ExactProblem {

    private static final double FOURIER = 0.5;
    private static final double THICKNESS = 4e-3;

    @Override
    public String name() {
        return "plane wall, Bi %s".formatted(bi);
    }

    @Override
    public double exact() {
        double sum = 0;
        for (int n = 0; n < 40; n++) {
            double low = n * Math.PI;
            double high = low + Math.PI / 2 - 1e-12;
            for (int i = 0; i < 200; i++) {
                double middle = 0.5 * (low + high);
                if (middle * Math.tan(middle) < bi) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            double zeta = low;
            sum += 4 * Math.sin(zeta) / (2 * zeta + Math.sin(2 * zeta)) * Math.exp(-zeta * zeta * FOURIER);
        }
        return sum;
    }

    @Override
    public double computed(double refinement) {
        Material metal = new Material("wall", 10, 8000, 500);
        HotEnd hotEnd = PlainBuilds.planeWall(metal, THICKNESS, bi * 10 / THICKNESS);
        WallCooling wall = new WallCooling(hotEnd, refinement, 400, 300);
        wall.run(FOURIER * THICKNESS * THICKNESS / (10 / (8000.0 * 500)), 3000);
        return (wall.insulatedSide() - 300) / 100;
    }
}
