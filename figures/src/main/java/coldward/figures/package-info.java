@NullMarked
package coldward.figures;

import org.jspecify.annotations.NullMarked;
