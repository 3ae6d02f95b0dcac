package coldward.model.shop;

import static coldward.quantity.Checks.notBlank;

import coldward.model.build.Build;
import coldward.quantity.InputError;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The printers watched together.
 *
 * @param name the shop's name
 * @param state folder for database, logs and lock, resolved against the shop file's own folder
 * @param printers with unique names, at least one
 * @param notices how people are told
 */
public record Shop(String name, String state, List<Printer> printers, NoticeRules notices) {

    /** A shop that tells nobody beyond the terminal. */
    public Shop(String name, String state, List<Printer> printers) {
        this(name, state, printers, NoticeRules.none());
    }

    /**
     * One watched printer.
     *
     * @param name unique in the shop
     * @param sheetFile the sheet's file, as resolved
     * @param build what the sheet says
     * @param link how it is reached
     * @param rules for silence and contradiction
     */
    public record Printer(String name, String sheetFile, Build build, LinkSpec link, WatchRules rules) {
        public Printer {
            notBlank("printer name", name);
        }
    }

    public Shop {
        notBlank("shop", name);
        notBlank("state", state);
        printers = List.copyOf(printers);
        if (printers.isEmpty()) {
            throw new InputError("printers", "the shop lists no printer but needs at least one");
        }
        Set<String> seen = new HashSet<>();
        for (Printer printer : printers) {
            if (!seen.add(printer.name())) {
                throw new InputError(
                        "printers", "printer " + printer.name() + " is listed twice; names must be unique");
            }
        }
    }
}
