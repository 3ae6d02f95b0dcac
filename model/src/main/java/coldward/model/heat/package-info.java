/**
 * How long does the cold side last without its fan, and which response saves it? A transient model of the hot end:
 * inner wall, sink and filament along the axis, the block below, the fan's air around. SI units, kelvin, x upward from
 * the block's face. Sources: Incropera, DeWitt, Bergman and Lavine (fins, air), Stephan (developing laminar flow),
 * Churchill and Chu 1975 (still air), Patankar 1980 (exponential scheme), Verwer et al. 1999 (ROS2).
 */
@NullMarked
package coldward.model.heat;

import org.jspecify.annotations.NullMarked;
