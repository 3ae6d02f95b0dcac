/** Tests. */
@NullMarked
package coldward.watch.notices;

import org.jspecify.annotations.NullMarked;
