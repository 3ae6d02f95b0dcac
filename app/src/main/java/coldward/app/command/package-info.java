/**
 * What can a person ask for? One class per command; each prints for people, or with {@code --json} the stable keys of its
 * published schema, units in the names (SI, but degC, rpm and mm where people read them so).
 */
@NullMarked
package coldward.app.command;

import org.jspecify.annotations.NullMarked;
