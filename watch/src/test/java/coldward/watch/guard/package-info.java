/** Tests of the guard: examples, its drawn diagram, and properties over seeded event sequences. */
@NullMarked
package coldward.watch.guard;

import org.jspecify.annotations.NullMarked;
