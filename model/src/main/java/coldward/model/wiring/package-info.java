/**
 * What is wired to what: boards with rails, ports and inputs, the fan's leads, wires, connectors and the parts in
 * between, and by which names each contact goes? Records only; volts, amperes, ohms, farads, metres and kelvin. Wire
 * after ASTM B258, copper after IEC 60028; diode classes carry the published points that they were fitted to.
 */
@NullMarked
package coldward.model.wiring;

import org.jspecify.annotations.NullMarked;
