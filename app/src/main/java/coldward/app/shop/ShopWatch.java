package coldward.app.shop;

import coldward.links.http.HttpLinks;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.quantity.Ticker;
import coldward.store.SqliteJournal;
import coldward.store.StateFolder;
import coldward.watch.History;
import coldward.watch.Notices;
import coldward.watch.PrinterView;
import coldward.watch.Watch;
import coldward.watch.WatchedPrinter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The watch of one shop file with everything it owns: state folder with lock, journal, links, control socket. */
public final class ShopWatch implements AutoCloseable {

    private final Map<String, Prepared> prepared;
    private final StateFolder folder;
    private final SqliteJournal journal;
    private final HttpLinks links;
    private final People people;
    private final Watch watch;
    private final ControlSocket control;

    /**
     * Starts watching.
     *
     * @param shop what is watched
     * @param state folder for database, lock and control socket
     * @param notices where people are told
     * @param ticker the clock
     * @throws CannotRun if another watch holds the folder, or no printer of the shop can be watched
     */
    public ShopWatch(Shop shop, Path state, Notices notices, Ticker ticker) {
        this.folder = StateFolder.open(state);
        Opening opening = new Opening();
        opening.add(folder);
        try {
            this.prepared = Prepared.all(shop);
            List<WatchedPrinter> watched = prepared.values().stream()
                    .map(Prepared::watched)
                    .flatMap(Optional::stream)
                    .toList();
            if (watched.isEmpty()) {
                throw new CannotRun(
                        "no printer of " + shop.name()
                                + " reports a usable fan speed, so there is nothing to watch; coldward race SHEET says what is missing");
            }
            this.journal = opening.add(SqliteJournal.open(folder));
            this.links = opening.add(new HttpLinks(ticker));
            this.people = opening.add(new People(shop, notices, journal, ticker));
            this.watch = opening.add(new Watch(
                    watched,
                    p -> switch (p.link()) {
                        case LinkSpec.Http http -> links.link(http);
                    },
                    journal,
                    History.none(),
                    people.board(),
                    ticker));
            people.showAlive(watch);
            this.control =
                    opening.add(new ControlSocket(state, watch, new PeopleRequests(watch, people.board()).all()));
        } catch (RuntimeException e) {
            opening.undo(e);
            throw e;
        }
    }

    /** Every printer of the shop, watched or not, in its order. */
    public Map<String, Prepared> printers() {
        return prepared;
    }

    /** The watch itself. */
    public Watch watch() {
        return watch;
    }

    /** How a printer stands; empty if it is not watched. */
    public Optional<PrinterView> view(String printer) {
        Prepared known = prepared.get(printer);
        return known == null || known.watched().isEmpty() ? Optional.empty() : Optional.of(watch.view(printer));
    }

    @Override
    public void close() {
        control.close();
        watch.close();
        people.close();
        links.close();
        journal.close();
        folder.close();
    }
}
