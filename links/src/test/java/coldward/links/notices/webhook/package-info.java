/** Tests. */
@NullMarked
package coldward.links.notices.webhook;

import org.jspecify.annotations.NullMarked;
