/**
 * Is there time enough? Joins heat and stop time into one answer for one build: deadlines of every response, the margin
 * of the one the sheet asks for, the hottest safe air, bands over seeded draws, and what would help. SI units, kelvin;
 * relations after the heat and trip packages.
 */
@NullMarked
package coldward.model.verdict;

import org.jspecify.annotations.NullMarked;
