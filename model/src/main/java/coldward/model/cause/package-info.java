/**
 * What does this number mean? Bayes over thirteen causes of a shown fan speed, each predicting every observation through
 * the closed forms of {@code model.reading}. Speeds in rpm, rates in Hz, times in s, volts as V, costs in minutes. Weights
 * and tolerances are common practice, no source, unless {@link coldward.model.cause.Tolerances} names one; docs/causes.md.
 */
@NullMarked
package coldward.model.cause;

import org.jspecify.annotations.NullMarked;
