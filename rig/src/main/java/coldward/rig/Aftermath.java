package coldward.rig;

import static coldward.quantity.Checks.positive;

import coldward.model.build.Build;

/**
 * What becomes of a printer after a recorded moment if nobody does anything more: actions already asked for take their
 * effect, everything else stays as it is.
 *
 * @param seconds how far it was followed, s
 * @param deepest softened depth from the fan's failure to the end, m
 * @param limit of the softened depth, m
 * @param endThroat inner wall where the cold side begins, at the end, K
 * @param endBlock block at the end, K
 */
public record Aftermath(double seconds, double deepest, double limit, double endThroat, double endBlock) {

    /** True if the depth stayed within its limit from the failure to the end. */
    public boolean kept() {
        return deepest <= limit;
    }

    /**
     * Goes on from a record, in no time.
     *
     * @param build the sheet that the record's printer was made of
     * @param from the recorded moment
     * @param seconds how far to follow, s, above 0
     */
    public static Aftermath of(Build build, PrinterRecord from, double seconds) {
        positive("seconds", seconds, "s");
        SimulatedPrinter printer = SimulatedPrinter.restored(build, from, Traits.USUAL.calm(), 0);
        printer.advance(seconds);
        Truth end = printer.truth();
        return new Aftermath(seconds, end.deepest(), end.limit(), end.throat(), end.block());
    }
}
