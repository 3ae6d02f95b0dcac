@NullMarked
package coldward.rig;

import org.jspecify.annotations.NullMarked;
