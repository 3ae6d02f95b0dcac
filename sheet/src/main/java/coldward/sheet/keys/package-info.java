/**
 * Which keys may a sheet and a shop file have, of which dimension, within which bounds, with which default and from
 * which source? One catalogue as data, from which files are checked, JSON Schemas and the reference table are written
 * and starter sheets are commented. Values are texts with units; classes name their source or say that there is none.
 */
@NullMarked
package coldward.sheet.keys;

import org.jspecify.annotations.NullMarked;
