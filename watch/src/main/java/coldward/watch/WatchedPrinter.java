package coldward.watch;

import static coldward.quantity.Checks.notBlank;

import coldward.model.build.Trip;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.watch.guard.GuardSettings;
import java.util.List;

/**
 * One printer as the watch needs it: everything computed before it starts.
 *
 * @param name unique in the shop
 * @param settings what its guard judges by
 * @param plan what is done on a trip
 * @param link how it is reached
 */
public record WatchedPrinter(String name, GuardSettings settings, ResponsePlan plan, LinkSpec link) {
    public WatchedPrinter {
        notBlank("printer name", name);
    }

    /**
     * A printer of a shop file.
     *
     * @param printer as the shop file has it
     * @param trip the sheet's, or the one chosen where the sheet leaves it open
     * @param choices other sets of actions with their computed deadlines
     * @param blockFanSeconds s that block-fan must blow before power-off, as computed
     * @throws coldward.quantity.InputError if the printer reports no speed
     */
    public static WatchedPrinter of(
            Shop.Printer printer, Trip trip, List<ResponsePlan.Choice> choices, double blockFanSeconds) {
        LinkSpec.Says says = switch (printer.link()) {
            case LinkSpec.Http http -> http.says();
        };
        return new WatchedPrinter(
                printer.name(),
                GuardSettings.of(printer.build(), trip, printer.rules(), says),
                ResponsePlan.of(printer.build().response(), printer.link(), choices, blockFanSeconds),
                printer.link());
    }
}
