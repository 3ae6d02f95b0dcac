/**
 * How long does the cold side last without its fan? Times in s from the failure, temperatures in K, all SI. Equations and
 * sources stand beside the models; published checks are in the tests.
 */
@NullMarked
package coldward.model.heat;

import org.jspecify.annotations.NullMarked;
