@NullMarked
package coldward.store;

import org.jspecify.annotations.NullMarked;
