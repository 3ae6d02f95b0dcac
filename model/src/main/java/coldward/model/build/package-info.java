/**
 * What is this printer? Records of one machine's hot end, fan, reading, trip and response, in SI units with
 * temperatures in kelvin, each checked when made. Default figures are named data with their source in {@code Materials},
 * {@code Plastics} and {@code Classes}; the printed sheet is read elsewhere.
 */
@NullMarked
package coldward.model.build;

import org.jspecify.annotations.NullMarked;
