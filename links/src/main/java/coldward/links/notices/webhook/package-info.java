/**
 * How do messages get to a web address? One POST a message with a deadline for the whole exchange, signed where a key is
 * given. Sources: HTTP 1.1 Web Hooks for Event Delivery 1.0.2 (CloudEvents), RFC 9421 (signatures), RFC 9530 (digest).
 */
@NullMarked
package coldward.links.notices.webhook;

import org.jspecify.annotations.NullMarked;
