package coldward.store;

import java.util.Arrays;
import java.util.zip.Deflater;

/**
 * Whole numbers as what is left beside a guess from those before, divided by what divides all their steps. Three guesses: a
 * straight line from a base, the number before, the number and step before; which leaves least is tried out. Noise is
 * best guessed by a line, what wanders by its last value, a count by its last step.
 */
final class Series {

    private static final int LINE = 0;
    private static final int LAST = 1;
    private static final int STEP = 2;
    private static final long PARTS = 1_000_000;

    private Series() {}

    /**
     * As a section.
     *
     * @param slope of the line, millionths per number; 0 where they do not grow
     * @param thorough true to try every guess, for what is kept for ever
     */
    static byte[] packed(long[] values, long slope, boolean thorough) {
        long divisor = slope == 0 ? divisor(values) : 1;
        byte[] best = section(values, LAST, slope, divisor).deflated(Deflater.DEFAULT_STRATEGY);
        if (thorough) {
            for (int guess : new int[] {LINE, LAST, STEP}) {
                Bytes.Writer section = section(values, guess, slope, divisor);
                for (int strategy : new int[] {Deflater.DEFAULT_STRATEGY, Deflater.HUFFMAN_ONLY}) {
                    byte[] other = section.deflated(strategy);
                    best = other.length < best.length ? other : best;
                }
            }
        }
        return best;
    }

    private static Bytes.Writer section(long[] values, int guess, long slope, long divisor) {
        Bytes.Writer out = new Bytes.Writer();
        long base = base(values, guess == LINE ? slope : 0);
        out.put(guess);
        out.put(divisor);
        out.put(base);
        out.put(slope);
        long last = base;
        long step = 0;
        for (int i = 0; i < values.length; i++) {
            out.put((values[i] - guess(guess, i, base, slope, last, step)) / divisor);
            step = i == 0 ? 0 : values[i] - last;
            last = values[i];
        }
        return out;
    }

    private static long guess(int guess, int i, long base, long slope, long last, long step) {
        return switch (guess) {
            case LINE -> base + Math.floorDiv(i * slope, PARTS);
            case LAST -> last;
            default -> last + step;
        };
    }

    /** The middle of what is left beside the line; itself one of the values where there is no slope. */
    private static long base(long[] values, long slope) {
        if (slope == 0) {
            long[] sorted = values.clone();
            Arrays.sort(sorted);
            return sorted[sorted.length / 2];
        }
        long[] beside = new long[values.length];
        for (int i = 0; i < values.length; i++) {
            beside[i] = values[i] - Math.floorDiv(i * slope, PARTS);
        }
        Arrays.sort(beside);
        return beside[beside.length / 2];
    }

    private static long divisor(long[] values) {
        long divisor = 0;
        for (int i = 1; i < values.length; i++) {
            long rest = Math.abs(values[i] - values[i - 1]);
            while (rest != 0) {
                long next = divisor % rest;
                divisor = rest;
                rest = next;
            }
        }
        return Math.max(1, divisor);
    }

    /** The numbers of a section. */
    static long[] unpacked(Bytes.Reader in, int count) {
        int guess = in.count(STEP);
        long divisor = in.next();
        long base = in.next();
        long slope = in.next();
        long[] values = new long[count];
        long last = base;
        long step = 0;
        for (int i = 0; i < count; i++) {
            values[i] = guess(guess, i, base, slope, last, step) + in.next() * divisor;
            step = i == 0 ? 0 : values[i] - last;
            last = values[i];
        }
        return values;
    }

    /** A slope for times, millionths of a ms per report. */
    static long slope(long[] times) {
        if (times.length < 3) {
            return 0;
        }
        long span = times[times.length - 1] - times[0];
        return Math.abs(span) > Long.MAX_VALUE / PARTS / 2 ? 0 : span * PARTS / (times.length - 1);
    }
}
