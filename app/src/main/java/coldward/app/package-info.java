@NullMarked
package coldward.app;

import org.jspecify.annotations.NullMarked;
