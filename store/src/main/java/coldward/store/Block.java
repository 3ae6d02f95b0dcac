package coldward.store;

import coldward.model.shop.ReadName;
import coldward.quantity.Dimension;
import coldward.quantity.OwnBug;
import coldward.watch.guard.Reads;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.Deflater;

/**
 * Many reports of one printer as sections of deflated whole numbers ({@link Series}): their times; which reads are there, by
 * runs; each read.
 *
 * <p>A value is kept in the unit that people use (degC, mm^3/s), with as few decimals as give it back exactly, at most
 * {@value #DECIMALS} ({@value #SHARE_DECIMALS} for shares): a value with more is rounded there.
 */
final class Block {

    static final int DECIMALS = 3;
    static final int SHARE_DECIMALS = 6;

    /** Reports in one block at most; an hour at a thousand a second. */
    private static final int MOST = 3_600_000;

    private static final int FORM = 1;
    private static final int AS_BITS = 99;
    private static final double ZERO_CELSIUS = 273.15;
    private static final double CUBIC_MM = 1e-9;
    private static final double LARGEST = 1e15;
    private static final double[] POWERS = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    private static final ReadName[] NAMES = ReadName.values();

    private Block() {}

    /** The number by which a read is known in a block; never given to another read. */
    private static int code(ReadName name) {
        return switch (name) {
            case SPEED -> 0;
            case REPORT -> 1;
            case DUTY -> 2;
            case SUPPLY -> 3;
            case AIR -> 4;
            case HEATER_POWER -> 5;
            case NOZZLE -> 6;
            case NOZZLE_TARGET -> 7;
            case COLD_SIDE -> 8;
            case WORKING -> 9;
            case FEED -> 10;
            case BLOCK_FAN -> 11;
            case POWER -> 12;
        };
    }

    /**
     * Packs reports.
     *
     * @param thorough true for what is kept for ever: takes ten times as long, and a third less room
     */
    static byte[] pack(List<Reported> reports, boolean thorough) {
        Bytes.Writer out = new Bytes.Writer();
        out.put(FORM);
        out.put(reports.size());
        long[] times = reports.stream().mapToLong(Reported::wallMillis).toArray();
        out.section(Series.packed(times, Series.slope(times), thorough));
        Bytes.Writer runs = new Bytes.Writer();
        int all = 0;
        int present = 0;
        int run = 0;
        for (Reported each : reports) {
            int mask = mask(each.reads());
            all |= mask;
            if (mask != present && run > 0) {
                runs.put(present);
                runs.put(run);
                run = 0;
            }
            present = mask;
            run++;
        }
        runs.put(present);
        runs.put(run);
        out.section(runs.deflated(Deflater.DEFAULT_STRATEGY));
        for (ReadName name : NAMES) {
            if ((all & 1 << code(name)) != 0) {
                column(out, name, reports, thorough);
            }
        }
        return out.plain();
    }

    private static int mask(Reads reads) {
        int mask = 0;
        for (ReadName name : NAMES) {
            mask |= reads.has(name) ? 1 << code(name) : 0;
        }
        return mask;
    }

    private static void column(Bytes.Writer out, ReadName name, List<Reported> reports, boolean thorough) {
        double[] values = reports.stream()
                .filter(r -> r.reads().has(name))
                .mapToDouble(r -> r.reads().get(name))
                .toArray();
        int decimals = decimals(name, values);
        long[] whole = new long[values.length];
        for (int i = 0; i < values.length; i++) {
            whole[i] = decimals == AS_BITS
                    ? Double.doubleToLongBits(values[i])
                    : Math.round(toUnit(name, values[i]) * POWERS[decimals]);
        }
        out.put(decimals);
        out.section(Series.packed(whole, 0, thorough));
    }

    private static int decimals(ReadName name, double[] values) {
        int most = name == ReadName.REPORT || name.dimension() == Dimension.SHARE ? SHARE_DECIMALS : DECIMALS;
        double largest = 0;
        for (double value : values) {
            largest = Math.max(largest, Math.abs(toUnit(name, value)));
        }
        while (most >= 0 && largest * POWERS[most] > LARGEST) {
            most--;
        }
        if (most < 0) {
            return AS_BITS;
        }
        for (int decimals = 0; decimals < most; decimals++) {
            boolean exact = true;
            for (int i = 0; i < values.length && exact; i++) {
                long whole = Math.round(toUnit(name, values[i]) * POWERS[decimals]);
                exact = fromUnit(name, whole / POWERS[decimals]) == values[i];
            }
            if (exact) {
                return decimals;
            }
        }
        return most;
    }

    private static double toUnit(ReadName name, double value) {
        return switch (name.dimension()) {
            case TEMPERATURE -> value - ZERO_CELSIUS;
            case FEED -> value / CUBIC_MM;
            default -> value;
        };
    }

    private static double fromUnit(ReadName name, double value) {
        return switch (name.dimension()) {
            case TEMPERATURE -> value + ZERO_CELSIUS;
            case FEED -> value * CUBIC_MM;
            default -> value;
        };
    }

    /** The reports of a block; empty if it is damaged or of a form that this program does not know. */
    static Optional<List<Reported>> unpack(byte[] body) {
        try {
            Bytes.Reader in = new Bytes.Reader(body);
            if (in.next() != FORM) {
                return Optional.empty();
            }
            return Optional.of(reports(in));
        } catch (Bytes.BlockDamaged e) {
            return Optional.empty();
        }
    }

    private static List<Reported> reports(Bytes.Reader in) {
        int n = in.count(MOST);
        long[] times = Series.unpacked(in.section(), n);
        int[] masks = new int[n];
        Bytes.Reader runs = in.section();
        for (int i = 0; i < n; ) {
            int mask = runs.count((1 << NAMES.length) - 1);
            int run = runs.count(n - i);
            if (run == 0) {
                throw new Bytes.BlockDamaged();
            }
            for (; run > 0; run--) {
                masks[i++] = mask;
            }
        }
        Reads.Builder[] builders = new Reads.Builder[n];
        for (int i = 0; i < n; i++) {
            builders[i] = new Reads.Builder();
        }
        for (ReadName name : NAMES) {
            column(in, name, masks, builders);
        }
        List<Reported> reports = new ArrayList<>(n);
        for (int i = 0; i < n; i++) {
            reports.add(new Reported(times[i], builders[i].build()));
        }
        return reports;
    }

    private static void column(Bytes.Reader in, ReadName name, int[] masks, Reads.Builder[] builders) {
        int bit = 1 << code(name);
        int count = (int) Arrays.stream(masks).filter(m -> (m & bit) != 0).count();
        if (count == 0) {
            return;
        }
        int decimals = in.count(AS_BITS);
        if (decimals != AS_BITS && decimals >= POWERS.length) {
            throw new Bytes.BlockDamaged();
        }
        long[] whole = Series.unpacked(in.section(), count);
        int next = 0;
        for (int i = 0; i < masks.length; i++) {
            if ((masks[i] & bit) != 0) {
                long each = whole[next++];
                double value =
                        decimals == AS_BITS ? Double.longBitsToDouble(each) : fromUnit(name, each / POWERS[decimals]);
                if (!Double.isFinite(value)) {
                    throw new Bytes.BlockDamaged();
                }
                builders[i].with(name, value);
            }
        }
    }

    /** Blocks of one printer as one. */
    static byte[] join(List<byte[]> bodies) {
        List<Reported> all = new ArrayList<>();
        for (byte[] body : bodies) {
            all.addAll(unpack(body).orElse(List.of()));
        }
        if (all.size() > MOST) {
            throw new OwnBug("a block was to hold " + all.size() + " reports but takes at most " + MOST);
        }
        return pack(all, true);
    }
}
