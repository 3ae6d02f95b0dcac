@NullMarked
package coldward.links;

import org.jspecify.annotations.NullMarked;
