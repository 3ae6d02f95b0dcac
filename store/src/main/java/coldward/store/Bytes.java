package coldward.store;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/** Whole numbers in as few bytes as they need (seven bits a byte, small ones of either sign first), and deflated (RFC 1951). */
final class Bytes {

    /** Bytes that one section may unpack to; an hour of a thousand reports a second is far below. */
    private static final int LARGEST = 1 << 26;

    private static final int SEVEN = 0x7f;
    private static final int MORE = 0x80;
    private static final int LONGEST = 10;

    private Bytes() {}

    /** Collects numbers and sections. */
    static final class Writer {
        private byte[] bytes = new byte[64];
        private int size;

        void put(long value) {
            long rest = (value << 1) ^ (value >> 63);
            room(LONGEST);
            while ((rest & ~SEVEN) != 0) {
                bytes[size++] = (byte) ((rest & SEVEN) | MORE);
                rest >>>= 7;
            }
            bytes[size++] = (byte) rest;
        }

        /** A length and as many bytes. */
        void section(byte[] content) {
            put(content.length);
            room(content.length);
            System.arraycopy(content, 0, bytes, size, content.length);
            size += content.length;
        }

        private void room(int more) {
            if (size + more > bytes.length) {
                bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, size + more));
            }
        }

        byte[] plain() {
            return Arrays.copyOf(bytes, size);
        }

        byte[] deflated(int strategy) {
            try (Deflater deflater = new Deflater(Deflater.BEST_COMPRESSION, true)) {
                deflater.setStrategy(strategy);
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

        Reader(byte[] bytes) {
            this.bytes = bytes;
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

        /** The next section, inflated. */
        Reader section() {
            int length = count(bytes.length - at);
            try (Inflater inflater = new Inflater(true)) {
                inflater.setInput(bytes, at, length);
                at += length;
                ByteArrayOutputStream out = new ByteArrayOutputStream(4 * length + 16);
                byte[] part = new byte[8192];
                while (!inflater.finished()) {
                    int count = inflater.inflate(part);
                    if (count == 0 || out.size() > LARGEST) {
                        throw new BlockDamaged();
                    }
                    out.write(part, 0, count);
                }
                return new Reader(out.toByteArray());
            } catch (DataFormatException e) {
                throw new BlockDamaged();
            }
        }
    }

    /** What was read is not what was written. Caught by whoever knows which block it was. */
    static final class BlockDamaged extends RuntimeException {
        private static final long serialVersionUID = 1L;

        BlockDamaged() {
            super("a block of the history is damaged", null, false, false);
        }
    }
}
