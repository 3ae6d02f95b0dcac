/**
 * How does it look? Every drawing and chart, laid out once from plain data and written as SVG or as text, used by pages,
 * reports and the command line alike. Times in s, temperatures in degC as shown, lengths in the drawing's own units (one
 * unit is one px at natural size). State colours and their order after IEC 60073, always with a word or shape beside.
 */
@NullMarked
package coldward.figures;

import org.jspecify.annotations.NullMarked;
