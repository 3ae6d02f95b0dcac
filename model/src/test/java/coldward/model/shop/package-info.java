@NullMarked
package coldward.model.shop;

import org.jspecify.annotations.NullMarked;
