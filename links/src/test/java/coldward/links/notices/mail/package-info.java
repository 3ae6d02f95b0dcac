/** Tests. */
@NullMarked
package coldward.links.notices.mail;

import org.jspecify.annotations.NullMarked;
