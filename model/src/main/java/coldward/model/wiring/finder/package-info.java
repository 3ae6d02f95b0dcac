/**
 * Which wire is supply, return and third, and what does the third tell? Volts and ohms from a multimeter, compared with what
 * a solved circuit ({@link coldward.model.circuit}) predicts for every assignment, by Bayes' rule. Colours are no evidence.
 * Spreads and the fan's inner parts: common practice, no source (docs/wiring.md).
 */
@NullMarked
package coldward.model.wiring.finder;

import org.jspecify.annotations.NullMarked;
