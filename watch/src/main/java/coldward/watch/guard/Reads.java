package coldward.watch.guard;

import coldward.model.shop.ReadName;
import coldward.quantity.InputError;
import coldward.quantity.OwnBug;
import java.util.Arrays;
import java.util.Map;
import java.util.OptionalDouble;

/**
 * Values read from a machine at one time, some or all of them. Units are those of {@link ReadName}: SI, rpm for speed,
 * 1 and 0 for yes and no. Immutable, without boxing.
 */
// ordinals index bits within one run of the program only; they are never kept or sent
@SuppressWarnings("EnumOrdinal")
public final class Reads {

    private static final ReadName[] NAMES = ReadName.values();

    /** Nothing read. */
    public static final Reads NONE = new Reads(0, new double[0]);

    /** Bit n is set if the read of ordinal n is present. */
    private final int present;

    /** Only the present ones, in the order of their ordinals. */
    private final double[] values;

    private Reads(int present, double[] values) {
        this.present = present;
        this.values = values;
    }

    /**
     * Some reads.
     *
     * @throws InputError if a value is not finite
     */
    public static Reads of(Map<ReadName, Double> values) {
        Builder builder = new Builder();
        values.forEach(builder::with);
        return builder.build();
    }

    /** Only a speed, rpm. */
    public static Reads ofSpeed(double rpm) {
        return new Builder().with(ReadName.SPEED, rpm).build();
    }

    /** Whether a value was read. */
    public boolean has(ReadName name) {
        return (present & bit(name)) != 0;
    }

    /**
     * A value that is there.
     *
     * @throws OwnBug if it was not read; ask {@link #has} first
     */
    public double get(ReadName name) {
        if (!has(name)) {
            throw new OwnBug("read " + name.word() + " was asked for but is not there");
        }
        return values[Integer.bitCount(present & (bit(name) - 1))];
    }

    /** A value, if it was read. */
    public OptionalDouble find(ReadName name) {
        return has(name) ? OptionalDouble.of(get(name)) : OptionalDouble.empty();
    }

    /** These reads, completed by older ones for what is missing here. */
    public Reads over(Reads older) {
        if ((older.present & ~present) == 0) {
            return this;
        }
        int both = present | older.present;
        double[] merged = new double[Integer.bitCount(both)];
        int n = 0;
        for (ReadName name : NAMES) {
            if ((both & bit(name)) != 0) {
                merged[n++] = has(name) ? get(name) : older.get(name);
            }
        }
        return new Reads(both, merged);
    }

    private static int bit(ReadName name) {
        return 1 << name.ordinal();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Reads that && present == that.present && Arrays.equals(values, that.values);
    }

    @Override
    public int hashCode() {
        return 31 * present + Arrays.hashCode(values);
    }

    @Override
    public String toString() {
        StringBuilder text = new StringBuilder("Reads[");
        for (ReadName name : NAMES) {
            if (has(name)) {
                text.append(text.length() > 6 ? ", " : "")
                        .append(name.word())
                        .append('=')
                        .append(get(name));
            }
        }
        return text.append(']').toString();
    }

    /** Collects reads. */
    public static final class Builder {
        private final double[] all = new double[NAMES.length];
        private int present;

        /**
         * Adds or replaces a value.
         *
         * @throws InputError if it is not finite
         */
        public Builder with(ReadName name, double value) {
            if (!Double.isFinite(value)) {
                throw new InputError(name.word(), "read " + name.word() + " is " + value + " but must be finite");
            }
            all[name.ordinal()] = value;
            present |= bit(name);
            return this;
        }

        /** The reads so far. */
        public Reads build() {
            double[] values = new double[Integer.bitCount(present)];
            int n = 0;
            for (ReadName name : NAMES) {
                if ((present & bit(name)) != 0) {
                    values[n++] = all[name.ordinal()];
                }
            }
            return new Reads(present, values);
        }
    }
}
