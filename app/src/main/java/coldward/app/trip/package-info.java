/**
 * How is a trip's design run and put into words? Sheet and recording in, verdict and what binds it out. Seconds, rpm,
 * trips per 1,000 printing hours; relations are those of the model's design package.
 */
@NullMarked
package coldward.app.trip;

import org.jspecify.annotations.NullMarked;
