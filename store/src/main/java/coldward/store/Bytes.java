package coldward.store;

import coldward.quantity.OwnBug;
import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/** Whole numbers as few bytes as they need (seven bits a byte, small ones of either sign first), deflated (RFC 1951). */
final class Bytes {

    /** Bytes that one block may unpack to; an hour of a thousand reports a second is far below. */
    private static final int LARGEST = 1 << 28;

    private static final int SEVEN = 0x7f;
    private static final int MORE = 0x80;

    private Bytes() {}

    /** Collects numbers. */
    static final class Writer {
        private byte[] bytes = new byte[256];
        private int size;

        void put(long value) {
            long rest = (value << 1) ^ (value >> 63);
            if (size + 10 > bytes.length) {
                bytes = Arrays.copyOf(bytes, 2 * bytes.length);
            }
            while ((rest & ~SEVEN) != 0) {
                bytes[size++] = (byte) (rest & SEVEN | MORE);
                rest >>>= 7;
            }
            bytes[size++] = (byte) rest;
        }

        byte[] deflated() {
            try (Deflater deflater = new Deflater(Deflater.BEST_COMPRESSION, true)) {
                deflater.setInput(bytes, 0, size);
                deflater.finish();
                ByteArrayOutputStream out = new ByteArrayOutputStream(size / 2 + 16);
                byte[] part = new byte[8192];
                while (!deflater.finished()) {
                    out.write(part, 0, deflater.deflate(part));
                }
                return out.toByteArray();
            }
        }
    }

    /** Gives them back in the same order. */
    static final class Reader {
        private final byte[] bytes;
        private int at;

        Reader(byte[] deflated) {
            try (Inflater inflater = new Inflater(true)) {
                inflater.setInput(deflated);
                ByteArrayOutputStream out = new ByteArrayOutputStream(4 * deflated.length + 16);
                byte[] part = new byte[8192];
                while (!inflater.finished()) {
                    int count = inflater.inflate(part);
                    if (count == 0 || out.size() > LARGEST) {
                        throw new BlockDamaged();
                    }
                    out.write(part, 0, count);
                }
                bytes = out.toByteArray();
            } catch (DataFormatException e) {
                throw new BlockDamaged();
            }
        }

        long next() {
            long rest = 0;
            for (int shift = 0; shift < 64; shift += 7) {
                if (at >= bytes.length) {
                    throw new BlockDamaged();
                }
                byte one = bytes[at++];
                rest |= (long) (one & SEVEN) << shift;
                if ((one & MORE) == 0) {
                    return (rest >>> 1) ^ -(rest & 1);
                }
            }
            throw new BlockDamaged();
        }

        int count(int most) {
            long value = next();
            if (value < 0 || value > most) {
                throw new BlockDamaged();
            }
            return (int) value;
        }
    }

    /** What was read is not what was written. Caught by whoever knows which block it was. */
    static final class BlockDamaged extends RuntimeException {
        private static final long serialVersionUID = 1L;

        BlockDamaged() {
            super("a block of the history is damaged", null, false, false);
        }
    }

    /** Greatest common divisor, of what may be 0. */
    static long divisor(long a, long b) {
        long x = Math.absExact(a);
        long y = Math.absExact(b);
        while (y != 0) {
            long rest = x % y;
            x = y;
            y = rest;
        }
        if (x < 0) {
            throw new OwnBug("a divisor came out below 0");
        }
        return x;
    }
}
