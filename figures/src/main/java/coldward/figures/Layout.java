package coldward.figures;

/**
 * The sizes of a race figure in one format; in units.
 *
 * @param width of the whole drawing
 * @param edge free on all sides
 * @param left where the time axis begins
 * @param right where it ends; the curves' labels follow
 * @param plotHeight least height of the upper plot
 * @param barHeight of the stop time's bar
 * @param title size of the title's letters
 * @param verdict size of the verdict's letters
 * @param text size of labels
 * @param small size of ticks and notes
 * @param margin size of the margin's letters
 * @param timeTicks at most so many steps on the time axis
 * @param heatTicks at most so many on the temperature axis
 */
record Layout(
        double width,
        double edge,
        double left,
        double right,
        double plotHeight,
        double barHeight,
        double title,
        double verdict,
        double text,
        double small,
        double margin,
        int timeTicks,
        int heatTicks) {

    static Layout of(Format format) {
        return switch (format) {
            case WIDE -> new Layout(1200, 28, 104, 930, 360, 28, 27, 18, 15, 14, 36, 9, 7);
            case NARROW -> new Layout(360, 10, 52, 264, 230, 20, 18, 13.5, 11.5, 11, 23, 4, 5);
        };
    }

    /** Distance of two baselines of letters of a size. */
    static double line(double size) {
        return size * 1.3;
    }
}
