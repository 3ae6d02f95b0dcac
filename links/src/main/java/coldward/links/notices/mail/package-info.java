/**
 * How do messages get to people by mail? One SMTP session a message (RFC 5321), encrypted by STARTTLS (RFC 3207) or from
 * the beginning (RFC 8314), with a deadline for all of it. Times are seconds in settings, nanoseconds of the ticker here.
 */
@NullMarked
package coldward.links.notices.mail;

import org.jspecify.annotations.NullMarked;
