package coldward.model.heat;

import static coldward.quantity.Checks.within;

import coldward.model.build.HotEnd;
import coldward.model.build.Neck;
import java.util.ArrayList;
import java.util.List;

/**
 * Cells along the axis, with faces exactly at the ends of every neck segment, of the shank and of the sink; fine in the
 * neck and just above it, where the filament softens first, coarser towards the sink's far end.
 */
final class Grid {

    private static final double NECK_CELL = 0.15e-3;
    private static final int NECK_CELLS_AT_LEAST = 4;
    private static final double THROAT_CELL = 0.15e-3;
    private static final double LARGEST_CELL = 1.0e-3;
    private static final double GROWTH = 1.09;

    /** Cell sizes, m. */
    final double[] size;
    /** Cell centres, m from the block's face. */
    final double[] centre;
    /** Segment of the neck that each neck cell belongs to. */
    final int[] segment;
    /** Cells 0..neck-1 are the neck. */
    final int neck;
    /** Cells neck..shankEnd-1 are the shank; from shankEnd on the sink stands alone. */
    final int shankEnd;

    /**
     * @param refinement 1 for the usual grid; 2 halves every cell
     */
    Grid(HotEnd hotEnd, double refinement) {
        within("refinement", refinement, 0.2, 64, "");
        List<Double> sizes = new ArrayList<>();
        List<Integer> segments = new ArrayList<>();
        List<Neck.Segment> neckSegments = hotEnd.neck().segments();
        for (int s = 0; s < neckSegments.size(); s++) {
            double length = neckSegments.get(s).length();
            int usual = Math.max(NECK_CELLS_AT_LEAST, (int) Math.ceil(length / NECK_CELL));
            int count = Math.max(1, (int) Math.round(usual * refinement));
            for (int i = 0; i < count; i++) {
                sizes.add(length / count);
                segments.add(s);
            }
        }
        this.neck = sizes.size();
        double shank = hotEnd.shank().length();
        double reached = graded(sizes, shank, THROAT_CELL, refinement);
        this.shankEnd = sizes.size();
        double above = hotEnd.sink().length() - shank;
        if (above > 1e-9) {
            graded(sizes, above, reached, refinement);
        }
        int n = sizes.size();
        this.size = new double[n];
        this.centre = new double[n];
        this.segment = new int[neck];
        double x = 0;
        for (int j = 0; j < n; j++) {
            size[j] = sizes.get(j);
            centre[j] = x + 0.5 * size[j];
            x += size[j];
        }
        for (int j = 0; j < neck; j++) {
            segment[j] = segments.get(j);
        }
    }

    /** Splits a length into cells growing from a first size; returns the size reached. Each is then split by refinement. */
    private static double graded(List<Double> sizes, double length, double first, double refinement) {
        List<Double> raw = new ArrayList<>();
        double sum = 0;
        double h = first;
        while (sum < length * (1 - 1e-9)) {
            raw.add(h);
            sum += h;
            h = Math.min(h * GROWTH, LARGEST_CELL);
        }
        double scale = length / sum;
        int parts = Math.max(1, (int) Math.round(refinement));
        for (double cell : raw) {
            for (int i = 0; i < parts; i++) {
                sizes.add(cell * scale / parts);
            }
        }
        return h;
    }

    int cells() {
        return size.length;
    }
}
