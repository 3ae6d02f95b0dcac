/** Tests of what is replayed without a machine. */
@NullMarked
package coldward.watch.replay;

import org.jspecify.annotations.NullMarked;
