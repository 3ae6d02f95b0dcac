package coldward.app.shop;

import coldward.links.http.HttpLinks;
import coldward.model.shop.LinkSpec;
import coldward.model.shop.Shop;
import coldward.quantity.CannotRun;
import coldward.quantity.Ticker;
import coldward.store.SqliteHistory;
import coldward.store.SqliteJournal;
import coldward.store.StateFolder;
import coldward.watch.History;
import coldward.watch.Journal;
import coldward.watch.Notices;
import coldward.watch.PrinterView;
import coldward.watch.Watch;
import coldward.watch.WatchedPrinter;
import coldward.watch.drill.DrillSubject;
import coldward.watch.drill.Drills;
import coldward.watch.replay.MemoryHistory;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The watch of one shop file with everything it owns: state folder with lock, journal, links, control socket. */
public final class ShopWatch implements AutoCloseable {

    private static final System.Logger LOG = System.getLogger(ShopWatch.class.getName());
    /** Of each printer: an hour and a half at one report a second, 25 min at 4 looks a second. */
    private static final int RECENT = 6000;

    private final Map<String, Prepared> prepared;
    private final StateFolder folder;
    private final SqliteJournal journal;
    private final Optional<SqliteHistory> history;
    private final HttpLinks links;
    private final People people;
    private final Watch watch;
    private final Drills drills;
    private final Ticker ticker;

    /** The newest reports of every printer; what happened around a trip is asked for minutes later. */
    private final MemoryHistory recent = new MemoryHistory(RECENT);

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
        this.ticker = ticker;
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
            this.history = history(folder, journal, ticker);
            history.ifPresent(opening::add);
            this.links = opening.add(new HttpLinks(ticker));
            this.people = opening.add(new People(shop, notices, journal, ticker));
            this.watch = opening.add(new Watch(
                    watched,
                    p -> switch (p.link()) {
                        case LinkSpec.Http http -> links.link(http);
                    },
                    journal,
                    kept(),
                    people.board(),
                    ticker));
            people.showAlive(watch);
            this.drills = new Drills(watch, ticker, subjects(prepared));
            this.control = opening.add(new ControlSocket(state, watch, requests()));
        } catch (RuntimeException e) {
            opening.undo(e);
            throw e;
        }
    }

    /** The history; empty where it cannot be kept, which is journalled: the watch goes on without. */
    private static Optional<SqliteHistory> history(StateFolder folder, Journal journal, Ticker ticker) {
        Consumer<String> told = sentence -> {
            LOG.log(System.Logger.Level.WARNING, sentence);
            // whether this entry itself is kept shows in the journal; nothing waits for it
            var _ = journal.append(new Journal.Entry(
                    ticker.wallMillis(), "", "history-trouble", new TreeMap<>(Map.of("detail", sentence))));
        };
        try {
            return Optional.of(SqliteHistory.open(folder, told));
        } catch (CannotRun e) {
            told.accept(e.getMessage() + " The watch goes on without a history.");
            return Optional.empty();
        }
    }

    /** The newest reports in memory, and all of them on the disk where that can be had. */
    private History kept() {
        return (printer, wallMillis, reads) -> {
            recent.keep(printer, wallMillis, reads);
            history.ifPresent(h -> h.keep(printer, wallMillis, reads));
        };
    }

    private Map<String, Function<JsonNode, ObjectNode>> requests() {
        Map<String, Function<JsonNode, ObjectNode>> all = new LinkedHashMap<>(new DrillRequests(drills).all());
        all.putAll(new PeopleRequests(watch, people.board()).all());
        all.put("recorded", new RecordedRequest(recent)::answer);
        all.put("service", new ServiceRequest(watch, ticker)::answer);
        return all;
    }

    private static Map<String, DrillSubject> subjects(Map<String, Prepared> prepared) {
        Map<String, DrillSubject> subjects = new LinkedHashMap<>();
        prepared.forEach((name, each) -> {
            if (each.watched().isPresent() && each.assessment().trip().isPresent()) {
                subjects.put(
                        name,
                        new DrillSubject(
                                each.printer().build(),
                                each.assessment().trip().get(),
                                DrillSubject.look(each.printer().link()),
                                each.deadline(true),
                                each.deadline(false)));
            }
        });
        return subjects;
    }

    /** Drills of its printers. */
    public Drills drills() {
        return drills;
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
        history.ifPresent(SqliteHistory::close);
        journal.close();
        folder.close();
    }
}
