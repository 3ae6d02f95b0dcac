/**
 * What do the voltages and currents of a small circuit settle at, and how fast does it move? Volts, amperes, ohms, farads,
 * seconds, degrees Celsius. Modified nodal analysis (Ho, Ruehli, Brennan 1975), Newton with junction limiting (Nagel 1975,
 * UCB/ERL M520), TR-BDF2 in time (Bank et al. 1985; Hosea and Shampine 1996). Knows nothing of fans or boards.
 */
@NullMarked
package coldward.model.circuit;

import org.jspecify.annotations.NullMarked;
