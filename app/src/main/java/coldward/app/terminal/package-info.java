/**
 * How does a result reach a person or a program? Text at the terminal's width, JSON with units in its keys (SI, but degC,
 * rpm and mm where people read them so), whole files, exit codes. No source beyond no-color.org.
 */
@NullMarked
package coldward.app.terminal;

import org.jspecify.annotations.NullMarked;
