@NullMarked
package coldward.sheet;

import org.jspecify.annotations.NullMarked;
