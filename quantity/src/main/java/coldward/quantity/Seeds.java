package coldward.quantity;

/**
 * Seeds of generators that are made one by one. {@link java.util.SplittableRandom}s whose seeds differ by its gamma share
 * their draws, so that neighbours would agree; each seed is therefore mixed first.
 */
public final class Seeds {

    /** SplitMix64's step: the golden ratio's fraction in 64 bits, odd. */
    private static final long GOLDEN_GAMMA = 0x9E3779B97F4A7C15L;

    private Seeds() {}

    /**
     * The seed of the n-th generator of a row, by the finaliser of SplitMix64 (Steele, Lea and Flood, Fast Splittable
     * Pseudorandom Number Generators, OOPSLA 2014, figure 16).
     *
     * @param seed of the row, any number
     * @param number which, any number
     */
    public static long of(long seed, long number) {
        long z = seed + GOLDEN_GAMMA * number;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }
}
