package coldward.store;

import coldward.watch.Journal;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;

/**
 * How an entry is tied to the one before: hash = SHA-256(previous hash as 64 lower-case hex digits, then the canonical
 * JSON of {@code {facts, kind, number, printer, wall_ms}}), all as UTF-8. The first entry's previous hash is 64 zeros.
 * Anybody can recompute it with a shell and {@code sha256sum}.
 */
final class Chain {

    /** What stands before the first entry. */
    static final String BEGINNING = "0".repeat(64);

    private Chain() {}

    /** The canonical JSON of number and entry. */
    static String text(long number, Journal.Entry entry) {
        return CanonicalJson.of(Map.of(
                "number",
                number,
                "wall_ms",
                entry.wallMillis(),
                "printer",
                entry.printer(),
                "kind",
                entry.kind(),
                "facts",
                entry.facts()));
    }

    /** The hash of an entry, 64 lower-case hex digits. */
    static String hash(String previous, long number, Journal.Entry entry) {
        try {
            MessageDigest sha256 = MessageDigest.getInstance("SHA-256");
            sha256.update(previous.getBytes(StandardCharsets.UTF_8));
            sha256.update(text(number, entry).getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(sha256.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new coldward.quantity.OwnBug("every Java platform has SHA-256, but this one does not", e);
        }
    }
}
