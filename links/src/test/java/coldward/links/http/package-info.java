/** Tests of the HTTP link, on real sockets. */
@NullMarked
package coldward.links.http;

import org.jspecify.annotations.NullMarked;
