package coldward.links.http;

import coldward.model.shop.LinkSpec.HttpRead;
import coldward.model.shop.ReadName;
import coldward.watch.Link.Trouble;
import coldward.watch.guard.Reads;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/**
 * Finds the reads of one path in its JSON answer.
 *
 * <p>The reads that the guard judges by must all be right, or the whole answer is not used: a speed without its duty
 * could make a stopped fan look rested. The others are left out one by one; a null there says nothing.
 */
final class ReadMapping {

    /** What the guard judges by. */
    private static final Set<ReadName> JUDGED =
            EnumSet.of(ReadName.SPEED, ReadName.REPORT, ReadName.DUTY, ReadName.NOZZLE, ReadName.NOZZLE_TARGET);

    private record Place(ReadName name, JsonPointer pointer, double scale, double offset) {}

    private final List<Place> places = new ArrayList<>();
    private final boolean speedMayBeSilent;

    /**
     * @param reads those of one path
     * @param speedMayBeSilent the machine speaks of its speed only when it changes
     */
    ReadMapping(Map<ReadName, HttpRead> reads, boolean speedMayBeSilent) {
        this.speedMayBeSilent = speedMayBeSilent;
        reads.forEach((name, read) -> places.add(new Place(
                name,
                JsonText.pointer("read " + name.word() + " pointer", read.pointer()),
                read.scale(),
                read.offset())));
    }

    /**
     * Adds what is found.
     *
     * @param troubles gets what could not be used
     * @return whether the answer may be used
     */
    boolean read(JsonNode root, Reads.Builder into, Collection<Trouble> troubles) {
        boolean usable = true;
        for (Place place : places) {
            JsonNode found = root.at(place.pointer());
            boolean judged = JUDGED.contains(place.name());
            boolean silent = found.isNull() || found.isMissingNode();
            if (silent && place.name() == ReadName.SPEED && speedMayBeSilent) {
                continue;
            }
            if (found.isMissingNode() || (silent && judged)) {
                troubles.add(trouble(Trouble.Kind.MISSING, place, "is not in the answer"));
                usable &= !judged;
            } else if (found.isNumber() || found.isBoolean()) {
                usable &= take(place, number(found), into, troubles) || !judged;
            } else if (!silent) {
                troubles.add(trouble(
                        Trouble.Kind.WRONG_KIND,
                        place,
                        "is " + found.getNodeType() + " but must be a number, true or false"));
                usable &= !judged;
            }
        }
        return usable;
    }

    private static boolean take(Place place, double number, Reads.Builder into, Collection<Trouble> troubles) {
        double value = number * place.scale() + place.offset();
        if (Plausible.can(place.name(), value)) {
            into.with(place.name(), value);
            return true;
        }
        troubles.add(trouble(
                Trouble.Kind.IMPLAUSIBLE,
                place,
                "is " + value + " " + place.name().dimension().baseUnit() + ", which cannot be"));
        return false;
    }

    private static double number(JsonNode found) {
        return found.isBoolean()
                ? (found.booleanValue() ? 1 : 0)
                : found.numberValue().doubleValue();
    }

    private static Trouble trouble(Trouble.Kind kind, Place place, String what) {
        return new Trouble(kind, place.name().word() + " (" + place.pointer() + ") " + what);
    }
}
