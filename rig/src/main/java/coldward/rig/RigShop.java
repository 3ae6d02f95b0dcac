package coldward.rig;

import coldward.model.shop.Shop;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The simulated printers of a shop. */
public final class RigShop {

    private final List<SimulatedPrinter> printers;

    private RigShop(List<SimulatedPrinter> printers) {
        this.printers = List.copyOf(printers);
    }

    /**
     * One simulated printer for each of the shop's, by the same name and sheet.
     *
     * @param shop whose printers
     * @param start how all of them are at rig time 0
     * @param seed of every trembling; each printer's own follows from it and from its name
     */
    public static RigShop of(Shop shop, SimulatedPrinter.Start start, long seed) {
        return of(shop, start, Traits.USUAL, seed);
    }

    /** The same, with fans of other traits. */
    public static RigShop of(Shop shop, SimulatedPrinter.Start start, Traits traits, long seed) {
        List<SimulatedPrinter> printers = new ArrayList<>();
        for (Shop.Printer printer : shop.printers()) {
            printers.add(SimulatedPrinter.of(
                    printer.name(),
                    printer.build(),
                    start,
                    traits,
                    31 * seed + printer.name().hashCode()));
        }
        return new RigShop(printers);
    }

    /** In the shop's order. */
    public List<SimulatedPrinter> printers() {
        return printers;
    }

    /** The printer of this name, if there is one. */
    public Optional<SimulatedPrinter> printer(String name) {
        return printers.stream().filter(p -> p.name().equals(name)).findFirst();
    }
}
