package coldward.figures;

import static coldward.quantity.Checks.within;

/**
 * How text figures are written.
 *
 * @param width columns, 40 to 400
 * @param ascii true for letters that every terminal has
 * @param colour true for colour by ANSI escape sequences (ECMA-48); the caller knows whether it is wanted
 */
public record TextOptions(int width, boolean ascii, boolean colour) {
    public TextOptions {
        within("width", width, 40, 400);
    }
}
