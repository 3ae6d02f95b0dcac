/**
 * What happened, and has anybody changed the record since? The shop's state folder with its lock, and the journal in
 * it: SQLite in write-ahead mode, synced at every commit, chained by SHA-256 (FIPS 180-4) over canonical JSON (RFC
 * 8785). Times are wall time in ms since 1970.
 */
@NullMarked
package coldward.store;

import org.jspecify.annotations.NullMarked;
