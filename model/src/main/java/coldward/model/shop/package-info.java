/**
 * Which printers are watched together, and how is each reached? Plain records of the shop file: printers, links with
 * their mappings as data, proofs of actions, rules for silence. Units are SI with temperatures in kelvin, speeds in rpm.
 */
@NullMarked
package coldward.model.shop;

import org.jspecify.annotations.NullMarked;
