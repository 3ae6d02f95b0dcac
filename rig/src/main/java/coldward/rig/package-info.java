/**
 * What would a real printer say and do, and what is really the matter with it? Simulated printers that obey the heat
 * model and answer over HTTP in a layout of the rig's own. SI inside (rpm for turning), degC, mm and W on the wire;
 * heat after the model's own equations, counters after the closed forms of a sampled rotation.
 */
@NullMarked
package coldward.rig;

import org.jspecify.annotations.NullMarked;
