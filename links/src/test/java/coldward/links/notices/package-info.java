/** Tests. */
@NullMarked
package coldward.links.notices;

import org.jspecify.annotations.NullMarked;
