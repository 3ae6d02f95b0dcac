package coldward.sheet.keys;

import coldward.model.shop.ReadName;
import coldward.quantity.Dimension;
import coldward.quantity.Units;

/** What the numbers of a machine's answer may be measured in. */
public final class ReadUnits {

    private ReadUnits() {}

    /** True for what is either so or not. */
    public static boolean isYesNo(ReadName read) {
        return read == ReadName.WORKING || read == ReadName.POWER;
    }

    /** True for what has no unit at all. */
    public static boolean isBare(ReadName read) {
        return isYesNo(read) || read == ReadName.REPORT;
    }

    /** True where a unit must be named. */
    public static boolean needsUnit(ReadName read) {
        return read.dimension() != Dimension.SHARE;
    }

    static String words(ReadName read) {
        String what = read.word().replace('_', ' ');
        if (isYesNo(read)) {
            return what + ", yes or no, without unit";
        } else if (isBare(read)) {
            return what + ", the machine's own number or time of it, without unit";
        }
        return what + " in " + String.join(", ", Units.accepted(read.dimension()));
    }
}
