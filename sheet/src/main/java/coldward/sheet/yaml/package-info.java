/**
 * What does a YAML file say, and where does it say it? Text in, trees out in which every key and value knows its file,
 * line, column and offsets, so that errors can point and text can be patched. No units, no meaning; YAML 1.2.2, core
 * schema, without tags of other types.
 */
@NullMarked
package coldward.sheet.yaml;

import org.jspecify.annotations.NullMarked;
