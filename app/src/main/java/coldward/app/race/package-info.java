/**
 * How is a whole race run and put into words? Assessment and draws on all processors, the picture of both, the verdict's
 * sentence. Seconds, kelvin inside, degC in words; relations are those of the model.
 */
@NullMarked
package coldward.app.race;

import org.jspecify.annotations.NullMarked;
