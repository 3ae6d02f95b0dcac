package coldward.model.heat;

import coldward.model.build.HotEnd;
import coldward.model.build.Material;
import coldward.model.build.Neck;
import coldward.model.build.Shank;
import coldward.model.build.Sink;
import coldward.model.build.Uncertain;

/**
 * The hot end as capacities and conductances on a grid. Three fields: inner wall (neck and shank), sink, filament; and
 * the block. A field that does not exist in a cell has no neighbour and no capacity there. Conductances between cells
 * are series of half cells; the filament's flux is exponentially fitted (Scharfetter and Gummel 1969; Patankar 1980,
 * 5.2-3), exact for steady one-dimensional flow and never oscillating.
 */
final class Network {

    private static final double GAP_AIR_TEMPERATURE = 273.15 + 80;

    final HotEnd hotEnd;
    final Grid grid;
    final SinkAir sinkAir;
    final int n;

    /** Capacities, J/K. */
    final double[] wallCapacity;

    final double[] sinkCapacity;
    final double[] filamentCapacity;
    final double blockCapacity;
    /** Conductance from cell j to j+1, W/K. */
    final double[] wallLink;

    final double[] sinkLink;
    /** Diffusive conductance of the filament from cell j to j+1; index 0 is block to cell 0, so shifted by one. */
    final double[] filamentDiffusion;
    /** Wall or sink to filament, and wall to sink, per cell, W/K. */
    final double[] wallToFilament;

    final double[] wallToSink;
    /** Share of the sink's length in each cell. */
    final double[] sinkShare;

    final double blockToWall;
    final double blockToSink;
    final double blockLoss;
    final double blockLossBlown;
    /** Conductances from the throat to the cell below and above, W/K. */
    final double throatBelow;

    final double throatAbove;
    final double softens;
    final double feedsAbove;
    final double air;
    final double limit;
    private final double filamentHeat;

    Network(HotEnd given, Factors factors, double refinement) {
        this.hotEnd = given.withAir(given.surroundings().air() + factors.of(Uncertain.AIR));
        this.grid = new Grid(hotEnd, refinement);
        this.sinkAir = new SinkAir(hotEnd, factors);
        this.n = grid.cells();
        this.air = hotEnd.surroundings().air();
        this.softens = hotEnd.plastic().softensAt() + factors.of(Uncertain.SOFTENING);
        this.feedsAbove = hotEnd.plastic().feedsAbove();
        this.limit = hotEnd.softenedDepthLimit();

        double metalFrom = hotEnd.neck().metalInnerDiameter();
        Shank shank = hotEnd.shank();
        Sink sink = hotEnd.sink();
        double filamentDiameter = hotEnd.filament().diameter();
        double filamentArea = Math.PI / 4 * filamentDiameter * filamentDiameter;
        double filamentPerMetre = hotEnd.plastic().density() * hotEnd.plastic().specificHeat() * filamentArea;
        this.filamentHeat = hotEnd.plastic().density() * hotEnd.plastic().specificHeat();

        double[] wallConductivityArea = new double[n];
        double[] sinkConductivityArea = new double[n];
        wallCapacity = new double[n];
        sinkCapacity = new double[n];
        filamentCapacity = new double[n];
        wallToFilament = new double[n];
        wallToSink = new double[n];
        sinkShare = new double[n];
        double coupling = factors.of(Uncertain.COUPLING) * wallFilamentPerMetre(hotEnd);
        double contact = shank.contact() * factors.of(Uncertain.CONTACT);
        double seat = 1 / (contact * Math.PI * shank.diameter());
        double shankHalf = Math.log(2 * shank.diameter() / (shank.diameter() + metalFrom)) / (2 * Math.PI);
        double coreHalf = Math.log((sink.coreDiameter() + shank.diameter()) / (2 * shank.diameter()))
                / (2 * Math.PI * sink.material().conductivity());
        double shankToSink = 1 / (seat + shankHalf / shank.material().conductivity() + coreHalf);
        double finMetal = sink.fins()
                * sink.finThickness()
                * Math.PI
                / 4
                * (square(sink.finDiameter()) - square(sink.coreDiameter()))
                / sink.length();
        double sinkHeat =
                sink.material().density() * sink.material().specificHeat() * factors.of(Uncertain.SINK_HEAT_CAPACITY);
        for (int j = 0; j < n; j++) {
            double dx = grid.size[j];
            filamentCapacity[j] = filamentPerMetre * dx;
            wallToFilament[j] = coupling * dx;
            if (j < grid.neck) {
                Neck.Segment segment = hotEnd.neck().segments().get(grid.segment[j]);
                Material metal = segment.material();
                double area = ring(segment.diameter(), metalFrom);
                wallConductivityArea[j] = metal.conductivity() * factors.of(Uncertain.NECK_CONDUCTANCE) * area;
                wallCapacity[j] = metal.density() * metal.specificHeat() * area * dx;
            } else {
                boolean overShank = j < grid.shankEnd;
                double core = ring(sink.coreDiameter(), overShank ? shank.diameter() : metalFrom);
                sinkConductivityArea[j] = sink.material().conductivity() * core;
                sinkCapacity[j] = sinkHeat * (core + finMetal) * dx;
                sinkShare[j] = dx / sink.length();
                if (overShank) {
                    double area = ring(shank.diameter(), metalFrom);
                    wallConductivityArea[j] = shank.material().conductivity() * area;
                    wallCapacity[j] =
                            shank.material().density() * shank.material().specificHeat() * area * dx;
                    wallToSink[j] = shankToSink * dx;
                }
            }
        }
        wallLink = links(wallConductivityArea);
        sinkLink = links(sinkConductivityArea);
        filamentDiffusion = new double[n];
        double filamentConductivityArea = hotEnd.plastic().conductivity() * filamentArea;
        for (int j = 0; j < n; j++) {
            double distance = j == 0 ? 0.5 * grid.size[0] : 0.5 * (grid.size[j - 1] + grid.size[j]);
            filamentDiffusion[j] = filamentConductivityArea / distance;
        }
        // threads in the block: an infinite fin of the shank's section in the neck's metal
        double neckConductivity = hotEnd.neck().segments().getFirst().material().conductivity();
        double threads = 1
                / Correlations.infiniteFin(
                        neckConductivity * ring(shank.diameter(), metalFrom),
                        1 / (seat + shankHalf / neckConductivity));
        blockToWall = 1 / (threads + 0.5 * grid.size[0] / wallConductivityArea[0]);
        blockToSink = hotEnd.hotSide().blockToSink() * factors.of(Uncertain.BLOCK_TO_SINK);
        blockLoss = hotEnd.hotSide().blockLoss() * factors.of(Uncertain.BLOCK_LOSS);
        blockLossBlown = hotEnd.hotSide().blockLossBlown() * factors.of(Uncertain.BLOCK_LOSS);
        blockCapacity = hotEnd.hotSide().blockHeatCapacity() * factors.of(Uncertain.BLOCK_HEAT_CAPACITY);
        throatBelow = wallConductivityArea[grid.neck - 1] / (0.5 * grid.size[grid.neck - 1]);
        throatAbove = wallConductivityArea[grid.neck] / (0.5 * grid.size[grid.neck]);
    }

    /**
     * Conductance from the bore's wall to the filament's mean, per metre, W/(m K): conduction in the rod ({@code 1/(8 pi
     * k)} for its sectional mean) in series with the air gap between eccentric cylinders (Incropera et al., Table 4.1)
     * and a liner.
     */
    static double wallFilamentPerMetre(HotEnd hotEnd) {
        double bore = hotEnd.neck().bore();
        double rod = hotEnd.filament().diameter();
        double e = hotEnd.filament().offset() * (bore - rod) / 2;
        double gapAir = new Air(GAP_AIR_TEMPERATURE, hotEnd.surroundings().pressure()).conductivity();
        double inside = 1 / (8 * Math.PI * hotEnd.plastic().conductivity());
        double cosh = (bore * bore + rod * rod - 4 * e * e) / (2 * bore * rod);
        double gap = Math.log(cosh + Math.sqrt(cosh * cosh - 1)) / (2 * Math.PI * gapAir);
        double liner = hotEnd.neck()
                .liner()
                .map(l -> Math.log(l.outerDiameter() / bore) / (2 * Math.PI * l.conductivity()))
                .orElse(0.0);
        return 1 / (inside + gap + liner);
    }

    private double[] links(double[] conductivityArea) {
        double[] link = new double[n];
        for (int j = 0; j + 1 < n; j++) {
            if (conductivityArea[j] > 0 && conductivityArea[j + 1] > 0) {
                link[j] = 1
                        / (0.5 * grid.size[j] / conductivityArea[j] + 0.5 * grid.size[j + 1] / conductivityArea[j + 1]);
            }
        }
        return link;
    }

    /** Heat that the moving filament carries per kelvin, W/K, at a feed, m3/s. */
    double carried(double feed) {
        return filamentHeat * feed;
    }

    /** Bernoulli function {@code z/(e^z - 1)}. */
    static double bernoulli(double z) {
        if (Math.abs(z) < 1e-5) {
            return 1 - z / 2 + z * z / 12;
        }
        return z / Math.expm1(z);
    }

    private static double ring(double outer, double inner) {
        return Math.PI / 4 * (square(outer) - square(inner));
    }

    private static double square(double x) {
        return x * x;
    }
}
