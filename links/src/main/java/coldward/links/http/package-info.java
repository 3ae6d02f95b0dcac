/**
 * What does a machine say over HTTP, and how is it told to act? Polling with JSON Pointer (RFC 6901) into JSON answers
 * (RFC 8259), and one request per action; every exchange has a deadline and a size of its own. Values leave here in SI
 * (rpm for speed); times are nanoseconds of the ticker.
 */
@NullMarked
package coldward.links.http;

import org.jspecify.annotations.NullMarked;
