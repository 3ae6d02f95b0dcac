/**
 * What do messages to people look like? Their wording and their form as CloudEvents, the same over every channel. Wall
 * times are ms since 1970. Sources: CloudEvents 1.0.2 and its JSON event format.
 */
@NullMarked
package coldward.links.notices;

import org.jspecify.annotations.NullMarked;
