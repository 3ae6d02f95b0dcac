/**
 * Which unit does a number carry, is it allowed, and what time is it? Units with exact factors (SI brochure 9th ed.;
 * NIST SP 811 for inch, CFM and inH2O), argument checks, the four kinds of error and the one clock. Everything inside
 * the project is SI; this package is where other units come in and go out.
 */
@NullMarked
package coldward.quantity;

import org.jspecify.annotations.NullMarked;
