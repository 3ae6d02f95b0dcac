/**
 * What does a build sheet or shop file say about the machines? YAML text in, records with the origin of every value
 * out, and text patches back that leave comments alone. Values come out in SI with temperatures in kelvin and speeds in
 * rpm; defaults and classes name their source.
 */
@NullMarked
package coldward.sheet;

import org.jspecify.annotations.NullMarked;
